// Package cores does the same for many things on several cores at a time. What is found must not
// hang on the order: each writes to a place of its own.
package cores

import "sync"

// Each does f for all numbers below n, by so many workers at a time, and comes back when all is
// done. f is called from several goroutines.
func Each(n, workers int, f func(i int)) {
	var wait sync.WaitGroup
	next := make(chan int)
	for range workers {
		wait.Go(func() {
			for i := range next {
				f(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wait.Wait()
}
