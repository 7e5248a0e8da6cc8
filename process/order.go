package process

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
