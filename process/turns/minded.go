package turns

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// Minded are the cautions that are of one face.
type Minded []minded

type minded struct {
	of   process.Face
	what fact.Fact
}

// Add adds cautions of the face that a job is seen from; none where it is of one face.
func (m *Minded) Add(seen *process.Job, list ...fact.Fact) {
	for _, f := range list {
		if seen.Seen != nil {
			*m = append(*m, minded{*seen.Seen, f})
		}
	}
}

// Elsewhere is whether a caution is of the other face alone.
func (m Minded) Elsewhere(u qty.Unit, f process.Face, what fact.Fact) (other bool) {
	for _, x := range m {
		if fact.Reads(u, x.what, what) {
			if x.of == f {
				return false
			}
			other = true
		}
	}
	return other
}
