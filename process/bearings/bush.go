package bearings

import (
	"fmt"
	"slices"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/source"
)

// inBush is how much longer than needed the bar is in its bush where a cut begins: at the stops
// the tip stands in front of the bore. Common practice, no source.
const inBush = 10 * qty.Millimetre

// checkGuide sees that a bush in a station of the work carries the bar during the whole of every
// cut; false where the bar runs in none.
func (c *checker) checkGuide(cuts []bored) bool {
	b, j := &c.j.Bar, c.j
	o := b.Outboard
	const key = "bar.outboard.station"
	if o == nil || c.Badly(key) {
		return o != nil
	}
	if o.Station == "" {
		if o.At == 0 && !c.Badly("bar.outboard.at") {
			c.Bad("bar.outboard", "tells not where the bar is held", "write at = …, from the nose to the middle of a bearing on the machine, or station = \"…\", for a bush in the work")
			return true
		}
		if c.Given("bar.outboard.place_error") {
			c.Bad("bar.outboard.place_error", "is of a bush in a station of the work, and this bearing stands on the machine", "leave it out, or write station = \"…\" in place of at")
		}
		return false
	}
	if o.At > 0 {
		c.Bad("bar.outboard.at", "says where a bearing on the machine stands, and station that a bush in the work carries the bar", "leave one of the two out")
		return true
	}
	g := j.Guide()
	behind := cuts[0].end
	for _, k := range cuts {
		behind = max(behind, k.end)
	}
	switch {
	case g == nil && (&checker{j: c.whole}).behind(o.Station) >= 0:
		c.Badf(key, c.oneOf(behind, "outboard"), "%q lies behind %q, which is closed: the bar does not come to it from the %s face", o.Station, c.closed(), *j.Seen)
		return true
	case g == nil:
		c.Badf(key, c.oneOf(behind, "outboard"), "there is no station %q", source.Show(o.Station))
		return true
	case g.Blind:
		c.Badf(key, c.oneOf(behind, "it"), "%q is closed, and the bar slides on through a bush as it cuts", g.Name)
		return true
	case b.Inboard != nil:
		c.Bad(key, "a line bar runs in two bearings that stand on the machine", "leave inboard out, or write at = … in place of station")
		return true
	case slices.ContainsFunc(j.Bores, func(b process.Bore) bool { return b.Station >= 0 && j.Stations[b.Station].Name == g.Name }): // said: CheckGuides
		return true
	}
	for _, k := range cuts {
		begin, end := k.station.From-inBush, k.end+process.RunOut
		// The bar is in the bush from here to here, along the bar, by table feed and by quill feed alike.
		near, far := b.CutterAt+g.From-end, b.CutterAt+g.To-begin
		step := b.StepAt(near)
		ahead := j.Cutter.Ahead
		switch {
		case k.end > g.From:
			c.Badf(key, c.oneOf(k.end, "it"), "%q lies in front of %q or in it%s: the bar with its cutter does not pass a bush", g.Name, k.station.Name, c.from)
		case near <= b.CutterAt+ahead:
			c.Badf(key, "take a station that lies further behind", "the cutter would run into the bush in %q, which begins %s behind %q", g.Name, c.Len(g.From-k.end), k.station.Name)
		case far > b.Stickout():
			c.Badf(key, fmt.Sprintf("lengthen the bar beyond the cutter by %s, or take a nearer station", c.Len(j.Units.Up(far-b.Stickout()))),
				"the bar is not all through %q when the cut in %q begins: it ends %s beyond the cutter", g.Name, k.station.Name, c.Len(b.Stickout()-b.CutterAt))
		case step < 0 || b.StepAt(far) != step:
			c.Badf(key, "what runs in the bush is one plain step", "the bar has a shoulder between %s and %s from the nose, which runs in %q", c.Len(near), c.Len(far), g.Name)
		case slices.ContainsFunc(b.Steps[step:], func(s process.Step) bool { return s.Diameter > b.Steps[step].Diameter }):
			c.Badf(key, "no step beyond the bush may be thicker than what runs in it", "the end of the bar does not go through a bush for %s", c.Dia(b.Steps[step].Diameter))
		case b.Steps[step].Diameter.Plus(2*process.BushWall) > g.Diameter:
			c.Badf(key, "take a wider station or a thinner bar", "a bush for a bar of %s does not go into %q, which is %s: its wall would be thinner than %s", c.Dia(b.Steps[step].Diameter), g.Name, c.Dia(g.Diameter), c.Len(process.BushWall))
		default:
			continue
		}
		return true
	}
	if last := j.Stations[len(j.Stations)-1]; last.Blind {
		for _, k := range cuts {
			if out := k.end + process.RunOut + b.Stickout() - b.CutterAt; out > last.To {
				c.Badf(key, "shorten the bar beyond the cutter", "the end of the bar would come to %s, and %q is closed at %s", c.Len(out), last.Name, c.Len(last.To))
				return true
			}
		}
	}
	return true
}
