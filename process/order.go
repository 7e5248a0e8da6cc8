package process

import "slices"

// Order is the order in which the bores of a job are cut.
type Order int

// The orders.
const (
	// RoughFirst: all are roughed, the casting rests, then each is finished.
	RoughFirst Order = iota
	// BoreByBore: each is finished before the next is begun.
	BoreByBore
)

func (o Order) String() string { return [...]string{"rough_first", "bore_by_bore"}[o] }

// Apart is whether bores are roughed apart from their finish.
func (j *Job) Apart() bool { return j.Order == RoughFirst && len(j.Bores) > 1 }

// InTurn are the bores in the order in which they are begun: those first that are finished before
// the others.
func (j *Job) InTurn() []Bore {
	all := slices.Clone(j.Bores)
	slices.SortStableFunc(all, func(a, b Bore) int {
		switch {
		case a.First == b.First:
			return 0
		case a.First:
			return -1
		}
		return 1
	})
	return all
}
