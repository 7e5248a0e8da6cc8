// Package faces shows a job whose bores are bored from both faces as it is seen from one of
// them.
//
// The line has one depth axis from each face. A depth a from one face is
//
//	a' = L − a
//
// from the other, L the distance between the faces (job.face_to_face). The half turn of the
// table is about the vertical: what stands right of the spindle stands left after it, up stays
// up, and a clock position θ becomes 360° − θ. What a job says of a station, a bore or a sweep is
// always written as it is seen from its own face; nothing else is turned about in a file.
//
// Seen from one face the job is as a job of that face alone: stations inward from it, those of
// the other face as they are met through the casting, its own sweeps. Bores keep their index.
// All that speaks of one visit goes by the job as it is seen from the face of its bore.
package faces

import (
	"math"
	"slices"

	"borewright/process"
)

// Both is whether bores of both faces are bored in a job, and it is seen from neither.
func Both(j *process.Job) bool {
	return j != nil && j.Seen == nil && slices.ContainsFunc(j.Bores, func(b process.Bore) bool { return b.Face != j.Bores[0].Face })
}

// Other is the other face.
func Other(f process.Face) process.Face { return process.FarFace - f }

// Seen is a job of both faces as it is seen from one; any other job is itself.
func Seen(j *process.Job, f process.Face) *process.Job {
	if !Both(j) {
		return j
	}
	k := *j
	k.Seen = &f
	k.Stations = nil
	var order []int
	shut := slices.ContainsFunc(j.Stations, func(s process.Station) bool { return s.Blind })
	for i, s := range j.Stations {
		if s.Face == f || !shut { // through a closed end nothing is seen
			order = append(order, i)
		} else if s.Blind {
			k.Closed, k.ClosedAt = s.Name, j.Through-s.To-s.Relief
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(Station(j, a, f).From - Station(j, b, f).From) })
	at := make([]int, len(j.Stations))
	for i := range at {
		at[i] = slices.Index(order, i)
	}
	for _, i := range order {
		k.Stations = append(k.Stations, Station(j, i, f))
	}
	k.Bores = nil
	for _, b := range j.Bores {
		if b.Face != f {
			b = turned(j, b)
		}
		if b.Station >= 0 { // -1: the file names none that there is
			b.Station = at[b.Station]
		}
		k.Bores = append(k.Bores, b)
	}
	k.Sweeps = nil
	for _, s := range j.Sweeps {
		if s.From == f && s.Station >= 0 {
			s.Station = at[s.Station]
			k.Sweeps = append(k.Sweeps, s)
		}
	}
	if f == process.FarFace {
		if t := j.LineUp.Table; t != nil {
			k.LineUp.Table = &process.Rotary{Centre: j.Through - t.Centre, Stop: t.Stop}
		}
		if p := j.LineUp.Packs; p != nil {
			k.LineUp.Packs = &process.Packs{Near: j.Through - p.Far, Far: j.Through - p.Near}
		}
	}
	return &k
}

// Turned is whether the work of a job is lined up after a half turn, to what was bored before it.
func Turned(seen *process.Job) bool {
	if seen.Seen == nil {
		return seen.FromFar()
	}
	return seen.Turned
}

// Of is a job as it is seen from the face of one of its bores, by its index.
func Of(j *process.Job, bore int) *process.Job { return Seen(j, j.Bores[bore].Face) }

// Station is a station, by its index in the job, as it is seen from a face. One that the sleeve
// of its bore makes narrower is taken so: the other face may have been bored before.
func Station(j *process.Job, i int, f process.Face) process.Station {
	s := j.Stations[i]
	if s.Face == f {
		return s
	}
	s.From, s.To = j.Through-s.To, j.Through-s.From
	if b := j.BoreAt(i); b >= 0 && j.Bores[b].Finish.Low > 0 {
		s.Diameter = min(s.Diameter, j.Bores[b].Finish.Low)
	}
	s.Walls = slices.Clone(s.Walls)
	for k := range s.Walls {
		s.Walls[k].At = mirrored(s.Walls[k].At)
	}
	return s
}

// mirrored is a clock position as it is seen from the other face.
func mirrored(clock float64) float64 { return math.Mod(360-clock, 360) }

// turned is a bore as it is seen from the other face.
func turned(j *process.Job, b process.Bore) process.Bore {
	b.LineAt = mirrored(b.LineAt)
	b.Wear = slices.Clone(b.Wear)
	for i, w := range b.Wear {
		b.Wear[i].Depth = j.Through - w.Depth
		b.Wear[i].At = nil
		for _, at := range w.At {
			b.Wear[i].At = append(b.Wear[i].At, mirrored(at))
		}
	}
	return b
}

// Shown is whether the sweeps of a job, seen from one face, show a bore of the other face.
func Shown(seen *process.Job) bool {
	return slices.ContainsFunc(seen.Sweeps, func(s process.Sweep) bool {
		at := seen.BoreAt(s.Station)
		return !s.Face && at >= 0 && !seen.Here(seen.Bores[at])
	})
}

// Cuts is whether a job, seen from one face, has a bore there that its bar and cutter cut.
func Cuts(seen *process.Job) bool {
	for i, b := range seen.Bores {
		if seen.Here(b) && seen.Cuts(i) {
			return true
		}
	}
	return false
}
