package cores

import "sync"

// Known are answers by what was asked for, each worked out once for all that ask, side by side too.
type Known[K comparable, V any] struct {
	mu    sync.Mutex
	known map[K]func() (V, error)
}

// Of is the answer to what is asked for: as it was worked out before, or as it is now.
func (k *Known[K, V]) Of(what K, work func() (V, error)) (V, error) {
	k.mu.Lock()
	if k.known == nil {
		k.known = map[K]func() (V, error){}
	}
	if k.known[what] == nil {
		k.known[what] = sync.OnceValues(work)
	}
	known := k.known[what]
	k.mu.Unlock()
	return known()
}
