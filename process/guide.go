package process

import (
	"math"
	"slices"

	"borewright/process/field"
	"borewright/process/qty"
)

// BushWall is the least that a bush for a bar has beside it. Common practice, no source.
const BushWall = 2540 * qty.Micrometre

// Guide is the station whose bush carries the end of the bar, as it is seen from the face that the
// job is; nil: none does, or a bearing on the machine.
func (j *Job) Guide() *Station {
	if j.Bar.Outboard == nil || j.Bar.Outboard.Station == "" {
		return nil
	}
	i := slices.IndexFunc(j.Stations, func(s Station) bool { return s.Name == j.Bar.Outboard.Station })
	if i < 0 {
		return nil
	}
	g := j.Stations[i]
	if j.Seen == nil && j.Through > 0 && g.Face != j.Bores[0].Face { // as j.Here has it
		g.From, g.To = j.Through-g.To, j.Through-g.From
	}
	return &g
}

// OutboardAt is how far from the nose the middle of the bearing, or of the bush, is that carries
// the end of the bar, with the tip at a depth. A bush stays at its depth: with table feed
// the work brings it nearer to the nose by what is fed, with quill feed the bar slides on through it.
func (j *Job) OutboardAt(tip qty.Length) qty.Length {
	g := j.Guide()
	switch {
	case g == nil:
		return j.Bar.Outboard.At
	case j.Bar.FeedBy == QuillFeed:
		return j.Bar.Standoff + (g.From+g.To)/2
	}
	return j.Bar.CutterAt + (g.From+g.To)/2 - tip
}

// FirstCut is the depth that the cut of the bore nearest to the face begins at, of those that are
// cut with the tools that the job has in the place of its own.
func (j *Job) FirstCut() qty.Length {
	all, by := qty.Length(math.MaxInt64), qty.Length(math.MaxInt64)
	for _, b := range j.Bores {
		if !j.Here(b) {
			continue
		}
		at := j.Stations[b.Station].From
		if all = min(all, at); b.CutBy == j.Used || b.RoughBy == j.Used {
			by = min(by, at)
		}
	}
	if by == math.MaxInt64 {
		return all
	}
	return by
}

// Guide is a bush for the bar in a station behind one bore.
type Guide struct{ Support }

// Describe says what its keys are: those of a bush for all bores.
func (g *Guide) Describe(d *field.Desc) {
	d.Only([]string{"station", "place_error", "clearance", "stiffness"}, &g.Support)
	d.Find("station").Need().Says("the station behind the bore, good or bored before in this job, that the bush is fitted in. A bore that carries the bar is finished first")
	d.Find("place_error").Says("how far the bush may stand off the line of bores, swept. Of a bore of this job where it is left out, what its line-up and the spindle leave unknown is added to the default, which is from memory")
}

// Carries are the bores, by their indices, that a bush in a bore guides the bar for.
func (j *Job) Carries(bore int) (all []int) {
	own := j.Bores[bore].Station
	for i, b := range j.Bores {
		if own >= 0 && b.Guide != nil && i != bore && b.Guide.Station == j.Stations[own].Name {
			all = append(all, i)
		}
	}
	return all
}

// Turn is when a bore is begun: less is sooner. One that carries the bar for others lies behind
// them, so that the deepest of these comes first.
func (j *Job) Turn(bore int) int {
	switch b := j.Bores[bore]; {
	case len(j.Carries(bore)) > 0:
		return -1 - b.Station
	case b.First:
		return 0
	}
	return 1
}
