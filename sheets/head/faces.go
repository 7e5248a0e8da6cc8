package head

import "borewright/process"

// Sides are the heads for the papers of each face that the work is done from, in its order; the
// head itself where a job has one face.
func (h Head) Sides() (all []Head) {
	if !h.Plan.BothFaces() {
		return []Head{h}
	}
	seen := map[process.Face]bool{}
	for _, t := range h.Plan.Turns() {
		if f := h.Plan.Bores[t[0]].Bore.Face; !seen[f] {
			seen[f] = true
			one := h.For(t[0], t[1])
			one.Job, one.Machine = h.Plan.Seen(h.Job, f), h.Machine // with the job's own bar
			all = append(all, one)
		}
	}
	if len(all) == 0 {
		return []Head{h}
	}
	return all
}

// FaceSaid is the face that the papers are for in a job of both; "" in any other.
func (h Head) FaceSaid() string {
	if h.Job == nil || h.Job.Seen == nil {
		return ""
	}
	return faceSaid[*h.Job.Seen]
}

var faceSaid = map[process.Face]string{process.NearFace: "NEAR face", process.FarFace: "FAR face"}

// From says ", from the FAR face" behind what such papers call it.
func (h Head) From() string {
	if f := h.FaceSaid(); f != "" {
		return ", from the " + f
	}
	return ""
}

// FaceMeans is what the face is of, for whoever stands at the machine.
func (h Head) FaceMeans() string {
	if h.FaceSaid() == "" {
		return ""
	}
	return h.FaceSaid() + " at the spindle: all depths, clock positions, left and right are as seen from it"
}

// EndsMean is which way the near end of the sleeve of a bore looks in a job of both faces, for whoever
// turns it and presses it in; "" in any other.
func (h Head) EndsMean(f process.Face) string {
	if !h.Plan.BothFaces() {
		return ""
	}
	face := faceSaid[f]
	return "towards the " + face + ", which it is bored from; clock positions as seen from the " + face
}
