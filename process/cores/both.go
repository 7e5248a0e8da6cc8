package cores

import (
	"runtime"
	"sync"
)

// Several is whether more than one core works.
func Several() bool { return runtime.GOMAXPROCS(0) > 1 }

// Both does two things beside each other, and one after the other where there is one core. It
// comes back when both are done; a panic of either is the caller's.
func Both(one, other func()) {
	if !Several() {
		one()
		other()
		return
	}
	ended := make(chan any)
	go func() {
		defer func() { ended <- recover() }()
		other()
	}()
	defer func() {
		if fault := <-ended; fault != nil {
			panic(fault)
		}
	}()
	one()
}

// Beside begins something beside what follows, where there is more than one core, and gives a function that
// waits for what comes of it; on one core it is done when it is first waited for. A panic is that of who waits.
func Beside[T any](do func() T) (wait func() T) {
	wait = sync.OnceValue(do)
	if Several() {
		go func() {
			defer func() { _ = recover() }()
			wait()
		}()
	}
	return wait
}
