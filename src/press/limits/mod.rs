//! What lies under the plate, what it stands, and the settings that serve all of it.

pub(in crate::press) mod films;
pub(in crate::press) mod heat;
pub(in crate::press) mod layers;
pub(in crate::press) mod risk;
pub(in crate::press) mod stacks;
pub(in crate::press) mod window;
pub(in crate::press) mod zone;
