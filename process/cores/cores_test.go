package cores

import (
	"sync/atomic"
	"testing"
)

// Each number is done once, no more of them at a time than there are workers, and all are done
// when it comes back.
func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 3, 500} {
		for _, workers := range []int{1, 2, 7} {
			done := make([]int32, n)
			var now, most atomic.Int32
			Each(n, workers, func(i int) {
				if k := now.Add(1); k > most.Load() {
					most.Store(k)
				}
				atomic.AddInt32(&done[i], 1)
				now.Add(-1)
			})
			for i, times := range done {
				if times != 1 {
					t.Errorf("%d of %d was done %d times", i, n, times)
				}
			}
			if most.Load() > int32(workers) || now.Load() != 0 {
				t.Errorf("%d at a time by %d workers, %d not done", most.Load(), workers, now.Load())
			}
		}
	}
}
