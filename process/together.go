package process

// SetWith are the bores that are cut through at one setting with one of them, by their indices,
// in the order of the job; the bore alone where there are none.
func (j *Job) SetWith(bore int) (all []int) {
	lead := j.leads(j.Bores[bore])
	for i, b := range j.Bores {
		if j.leads(b) == lead {
			all = append(all, i)
		}
	}
	return all
}

// leads is the station of the first bore that is cut at a bore's setting.
func (j *Job) leads(b Bore) int {
	if b.With == "" {
		return b.Station
	}
	for i, s := range j.Stations {
		if s.Name == b.With {
			return i
		}
	}
	return b.Station
}

// Settings are the bores of the job by their indices, those together that are cut through at one
// setting, in the order of the job.
func (j *Job) Settings() (all [][]int) {
	for i := range j.Bores {
		if with := j.SetWith(i); with[0] == i {
			all = append(all, with)
		}
	}
	return all
}

// Unlike is what of a bore keeps it from being made at the setting of another; "" where nothing
// does.
func (b Bore) Unlike(other Bore) string {
	switch {
	case b.Finish.Low != other.Finish.Low || b.Finish.High != other.Finish.High:
		return "the finish"
	case b.Ra != other.Ra:
		return "the roughness"
	case b.Roundness != other.Roundness:
		return "the roundness"
	case b.WayOut != other.WayOut || b.LineAt != other.LineAt:
		return "the way out"
	case b.Face != other.Face:
		return "the face"
	case b.First != other.First:
		return "the order (first)"
	}
	return ""
}
