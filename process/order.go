package process

import (
	"cmp"
	"slices"
)

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
	var at []int
	for i := range j.Bores {
		at = append(at, i)
	}
	slices.SortStableFunc(at, func(a, b int) int { return cmp.Compare(j.Turn(a), j.Turn(b)) })
	var all []Bore
	for _, i := range at {
		all = append(all, j.Bores[i])
	}
	return all
}
