package cores

import (
	"runtime"
	"testing"
)

// Both are done when it comes back, on one core and on two, and a panic of either reaches the
// caller after the other is done.
func TestBoth(t *testing.T) {
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(0))
	for _, cores := range []int{1, 2} {
		runtime.GOMAXPROCS(cores)
		one, other := false, false
		if Both(func() { one = true }, func() { other = true }); !one || !other {
			t.Errorf("on %d cores: the one done %v, the other %v", cores, one, other)
		}
		done := false
		fault := func() (fault any) {
			defer func() { fault = recover() }()
			Both(func() { done = true }, func() { panic("the other") })
			return nil
		}()
		if fault != "the other" || !done {
			t.Errorf("on %d cores: a panic of the other came as %v, the one done %v", cores, fault, done)
		}
	}
	for _, cores := range []int{1, 2} {
		runtime.GOMAXPROCS(cores)
		if got := Beside(func() int { return 7 })(); got != 7 {
			t.Errorf("on %d cores: beside came %d", cores, got)
		}
		wait := Beside(func() int { panic("beside") })
		fault := func() (fault any) {
			defer func() { fault = recover() }()
			_ = wait()
			return nil
		}()
		if fault != "beside" {
			t.Errorf("on %d cores: a panic beside came as %v", cores, fault)
		}
	}
	runtime.GOMAXPROCS(2)
	done := false
	fault := func() (fault any) {
		defer func() { fault = recover() }()
		Both(func() { panic("the one") }, func() { done = true })
		return nil
	}()
	if fault != "the one" || !done {
		t.Errorf("a panic of the one came as %v, the other done %v", fault, done)
	}
}
