//! Independent work on several threads, with results in the order of their tasks whatever finishes first.

use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Does every task, on up to so many threads, and returns the results in the order of the tasks.
pub(crate) fn each<T: Sync, R: Send>(threads: usize, tasks: &[T], work: impl Fn(usize, &T) -> R + Sync) -> Vec<R> {
    let threads = threads.min(tasks.len());
    if threads < 2 {
        return tasks.iter().enumerate().map(|(index, task)| work(index, task)).collect();
    }
    let next = AtomicUsize::new(0);
    let made: Mutex<Vec<Option<R>>> = Mutex::new(tasks.iter().map(|_| None).collect());
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let index = next.fetch_add(1, Ordering::Relaxed);
                    let Some(task) = tasks.get(index) else { break };
                    let result = work(index, task);
                    made.lock().expect("no thread panics while it holds the results")[index] = Some(result);
                }
            });
        }
    });
    let made = made.into_inner().expect("no thread panics while it holds the results");
    made.into_iter().map(|result| result.expect("every task was taken by a thread")).collect()
}

#[cfg(test)]
mod tests {
    use super::each;

    #[test]
    fn results_come_in_the_order_of_the_tasks_on_any_number_of_threads() {
        let tasks: Vec<u64> = (0..100).collect();
        let squares: Vec<u64> = tasks.iter().map(|n| n * n).collect();
        for threads in [1, 2, 7] {
            assert_eq!(each(threads, &tasks, |_, n| n * n), squares);
        }
    }
}
