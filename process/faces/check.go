package faces

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// Fill gives stations and sweeps the face that they count from where the file does not say it.
func Fill(r *keys.Reader, j *process.Job) {
	for i := range j.Stations {
		if r.Given(source.El("station", i) + ".face") {
			continue
		}
		b := max(0, j.BoreAt(i))
		if len(j.Bores) > 0 {
			j.Stations[i].Face = j.Bores[b].Face
		}
	}
	for i := range j.Sweeps {
		if s := &j.Sweeps[i]; s.Station >= 0 && !r.Given(source.El("sweep", i)+".swept_from") {
			s.From = j.Stations[s.Station].Face
		}
	}
}

// Stations checks that the stations of each face stand one behind the other, and that those of
// both faces do where the job has both.
func Stations(r *keys.Reader, j *process.Job) {
	last := map[process.Face]int{} // station, from 1
	deepest := map[process.Face]int{}
	for i, s := range j.Stations {
		deepest[s.Face] = i
	}
	for i, s := range j.Stations {
		at := source.El("station", i)
		long := r.Has(at+".from", at+".to")
		if long && s.To <= s.From {
			r.Badf(at+".to", "to must be deeper than from", "the station ends at %s, but begins at %s", r.Len(s.To), r.Len(s.From))
			long = false
		}
		if b := last[s.Face]; b > 0 && long && r.Has(source.El("station", b-1)+".to", source.El("station", b-1)+".from") {
			switch before := j.Stations[b-1]; {
			case s.To <= before.From:
				r.Badf(at+".from", "list the stations in the order the spindle meets them", "lies in front of %q, which is listed before it", before.Name)
			case s.From < before.To:
				r.Badf(at+".from", "stations do not overlap: mend one of the depths", "begins at %s, inside %q, which ends at %s", r.Len(s.From), before.Name, r.Len(before.To))
			}
		}
		last[s.Face] = i + 1
		if s.Blind && i < deepest[s.Face] {
			next := slices.IndexFunc(j.Stations[i+1:], func(o process.Station) bool { return o.Face == s.Face })
			r.Bad(at+".blind", fmt.Sprintf("%q is closed at its end, yet %q lies behind it", s.Name, j.Stations[i+1+next].Name), "only the last station can be blind")
		}
	}
	both(r, j)
}

// both checks what a job of both faces has besides.
func both(r *keys.Reader, j *process.Job) {
	const key = "face_to_face"
	two := Both(j)
	far := slices.IndexFunc(j.Bores, func(b process.Bore) bool { return len(j.Bores) > 0 && b.Face != j.Bores[0].Face })
	switch {
	case two && !r.Given(key):
		r.Badf(source.El("bore", far)+".face", "write face_to_face = …, the distance between the two faces; or write the bores of each face in a job of their own",
			"bores of both faces need the distance between the faces")
		return
	case !two && r.Given(key) && len(j.Bores) > 0:
		r.Bad(key, "all bores are bored from the "+j.Bores[0].Face.String()+" face", `leave it out, or write face = "far" at the bores of the other`)
		return
	}
	for i, s := range j.Stations {
		at := source.El("station", i)
		b := j.BoreAt(i)
		switch {
		case b >= 0 && j.Bores[b].Face != s.Face:
			r.Badf(at+".face", "leave face out here, and count its depths from the face that it is bored from", "its depths count from the %s face, and it is bored from the %s one", s.Face, j.Bores[b].Face)
		case !two && len(j.Bores) > 0 && s.Face != j.Bores[0].Face:
			r.Badf(at+".face", "leave face out", "all bores are bored from the %s face, and all depths count from it", j.Bores[0].Face)
		case two && s.To > j.Through && r.Has(at+".to", key):
			r.Badf(at+".to", "depths count from the face of the station: mend this depth, or face_to_face", "ends at %s, beyond the other face, which lies at %s", r.Len(s.To), r.Len(j.Through))
		}
	}
	for i, s := range j.Sweeps {
		if !two && len(j.Bores) > 0 && s.From != j.Bores[0].Face {
			r.Badf(source.El("sweep", i)+".swept_from", "leave swept_from out", "all bores are bored from the %s face, and all sweeps are made from it", j.Bores[0].Face)
		}
	}
	if two && r.Err() == nil {
		meet(r, j)
	}
}

// meet checks that the stations of one face do not reach into those of the other, and what of a
// job of both faces is not planned.
func meet(r *keys.Reader, j *process.Job) {
	seen := Seen(j, process.NearFace)
	for k := 1; k < len(seen.Stations); k++ {
		a, b := seen.Stations[k-1], seen.Stations[k]
		if b.From >= a.To {
			continue
		}
		i := slices.IndexFunc(j.Stations, func(s process.Station) bool { return s.Name == b.Name })
		r.Badf(source.El("station", i)+".to", "depths of far stations count from the far face: mend one of the depths, or face_to_face",
			"seen from the near face it begins at %s, inside %q, which ends at %s there", r.Len(b.From), a.Name, r.Len(a.To))
	}
	if shut := slices.IndexFunc(j.Stations, func(s process.Station) bool { return s.Blind }); shut >= 0 {
		for i, s := range j.Sweeps {
			if st := j.Stations[s.Station]; st.Face != s.From {
				r.Badf(source.El("sweep", i)+".swept_from", fmt.Sprintf("sweep it from the %s face, or leave this sweep out", st.Face),
					"%q is not seen from the %s face: %q is closed", st.Name, s.From, j.Stations[shut].Name)
			}
		}
	}
	for i, b := range j.Bores {
		if w := slices.IndexFunc(j.Stations, func(s process.Station) bool { return s.Name == b.With }); b.With != "" && w >= 0 && j.Stations[w].Face != b.Face {
			r.Badf(source.El("bore", i)+".with", "name a bore of the same face, or leave it out", "%q is bored from the other face, and one setting is of one face: the table turns between", b.With)
		}
	}
}

// In is a station as it is seen from the face that a sweep was made from.
func In(j *process.Job, s process.Sweep) process.Station {
	st := j.Stations[s.Station]
	if Both(j) && j.Through > 0 && s.From != st.Face {
		return Station(j, s.Station, s.From)
	}
	return st
}

// Rotary checks that the mill can turn the work half round.
func Rotary(r *keys.Reader, j *process.Job) {
	i := slices.IndexFunc(j.Bores, func(b process.Bore) bool { return b.Face == process.FarFace })
	if m := j.Machine; i >= 0 && m != nil && !slices.ContainsFunc(m.Travels, func(t process.Travel) bool { return t.Axis == 'B' }) {
		r.Badf(source.El("bore", i)+".face", `choose a mill with one, or state it: travel = [ …, { axis = "B", what = "table, round" } ]`, "%s has no rotary table to turn the work half round", m.ID)
	}
}

// Names checks that each station has a name of its own.
func Names(r *keys.Reader, j *process.Job) {
	seen := map[string]int{}
	for i, s := range j.Stations {
		if s.Name == "" {
			continue
		}
		low := strings.ToLower(s.Name)
		if k, twice := seen[low]; twice {
			r.Badf(source.El("station", i)+".name", "give each station its own name", "%q is already the name of station %d", s.Name, k+1)
			continue
		}
		seen[low] = i
	}
}
