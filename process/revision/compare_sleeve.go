package revision

import (
	"cmp"
	"fmt"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/qty"
	"borewright/process/sleeve"
)

// sleeves compares two sleeves as planned, or one with nothing.
func (c *comparer) sleeves(a, b *sleeve.Sleeve) {
	if a == nil && b == nil {
		return
	}
	if a == nil || b == nil {
		c.fig(process.SpoilsFit, "sleeve worked out", figYesNo(a != nil, "yes", "no"), figYesNo(b != nil, "yes", "no"))
		return
	}
	yes := func(s field.Rank, what string, x, y bool) {
		c.fig(s, what, figYesNo(x, "yes", "no"), figYesNo(y, "yes", "no"))
	}
	sizes := func(s field.Rank, what string, x, y [2]qty.Diameter) {
		c.fig(s, what+", low", figSize(x[0]), figSize(y[0]))
		c.fig(s, what+", high", figSize(x[1]), figSize(y[1]))
	}
	spans := func(s field.Rank, what string, x, y sleeve.Span) {
		c.fig(s, what+", least", figFine(x.Least), figFine(y.Least))
		c.fig(s, what+", most", figFine(x.Most), figFine(y.Most))
	}
	numbers := func(s field.Rank, what, unit string, x, y [2]float64) {
		c.fig(s, what+", least", figNumber(x[0], unit), figNumber(y[0], unit))
		c.fig(s, what+", most", figNumber(x[1], unit), figNumber(y[1], unit))
	}
	c.sentences(process.SpoilsProof, "what is wrong with the sleeve", a.Stops, b.Stops)
	yes(process.SpoilsSize, "bored in place", a.InPlace, b.InPlace)
	c.fig(process.SpoilsSize, "finish asked for", figText(a.Asked.String()), figText(b.Asked.String()))
	c.fig(process.SpoilsFit, "held by, as planned", figText(a.Fastening.String()), figText(b.Fastening.String()))
	c.fig(process.SpoilsFit, "made of", figOptText(workName(a.Material)), figOptText(workName(b.Material)))
	c.fig(process.SpoilsFit, "fit planned", figOptText(a.Fit), figOptText(b.Fit))
	c.fig(process.SpoilsFit, "outside, nominal", figSize(a.Outside), figSize(b.Outside))
	sizes(process.SpoilsFit, "housing", a.Housing, b.Housing)
	sizes(process.SpoilsFit, "outside turned to", a.Turned, b.Turned)
	for i, end := range []string{"low", "high"} {
		c.fig(process.SpoilsFit, "housing measured, "+end, figOptSize(a.Found[i]), figOptSize(b.Found[i]))
		c.fig(process.SpoilsFit, "outside for this housing, "+end, figOptSize(a.TurnedTo[i]), figOptSize(b.TurnedTo[i]))
	}
	c.fig(process.SpoilsFit, "matched within", figFine(a.Match), figFine(b.Match))
	spans(process.SpoilsFit, "interference", a.Interference, b.Interference)
	spans(process.SpoilsFit, "interference, roughness flattened", a.Effective, b.Effective)
	spans(process.SpoilsFit, "length made", a.Length, b.Length)
	c.fig(process.SpoilsFit, "wall finished", figLength(a.Wall), figLength(b.Wall))
	spans(process.SpoilsFit, "metal around the housing", a.Hub, b.Hub)
	yes(process.SpoilsFit, "metal around the housing assumed", a.Assumed, b.Assumed)
	for _, w := range [...]struct {
		what    string
		inPlace bool
		a, b    sleeve.SleeveWay
	}{{"finished before", false, a.Before, b.Before}, {"bored in place", true, a.Here, b.Here}} {
		size := process.SpoilsSize
		if a.InPlace != w.inPlace && b.InPlace != w.inPlace {
			size = process.SpoilsWords // the way that neither takes spoils nothing
		}
		yes(size, w.what+", lands", w.a.Lands, w.b.Lands)
		sizes(size, w.what+", inside as turned", w.a.Inside, w.b.Inside)
		sizes(size, w.what+", size when done", [2]qty.Diameter{w.a.Low, w.a.High}, [2]qty.Diameter{w.b.Low, w.b.High})
		spans(size, w.what+", closes by", w.a.Closure, w.b.Closure)
		spans(size, w.what+", left for the mill", w.a.Stock, w.b.Stock)
		c.fig(size, w.what+", out of round", figFine(w.a.Roundness), figFine(w.b.Roundness))
		c.fig(size, w.what+", axis off", figFine(w.a.OffCentre), figFine(w.b.OffCentre))
		c.fig(size, w.what+", Ra", figRa(toNext(w.a.Ra, raStep)), figRa(toNext(w.b.Ra, raStep)))
		c.sentences(size, w.what+", does not fit", w.a.Why, w.b.Why)
	}
	var f, g sleeve.FinalClearance
	if a.Final != nil {
		f = *a.Final
	}
	if b.Final != nil {
		g = *b.Final
	}
	yes(process.SpoilsSize, "final clearance as asked", f.OK, g.OK)
	sizes(process.SpoilsSize, "part that goes in", f.Part, g.Part)
	spans(process.SpoilsSize, "clearance asked for", f.Asked, g.Asked)
	spans(process.SpoilsSize, "clearance expected", f.Expected, g.Expected)
	spans(process.SpoilsFit, "clearance at work", f.AtWork, g.AtWork)
	spans(process.SpoilsSize, "bore closes by", a.Closure, b.Closure)
	numbers(process.SpoilsFit, "pressure", "MPa", a.Pressure, b.Pressure)
	numbers(process.SpoilsFit, "temperature at work, as planned", "°C", a.Service, b.Service)
	numbers(process.SpoilsFit, "pressure at work", "MPa", a.AtWork, b.AtWork)
	for i := range max(len(a.Stresses), len(b.Stresses)) {
		x, y := nth(a.Stresses, i), nth(b.Stresses, i)
		at := "stress " + cmp.Or(x.Where, y.Where)
		c.fig(process.SpoilsFit, at+", where", figOptText(x.Where), figOptText(y.Where))
		numbers(process.SpoilsFit, at+", hoop", "MPa", x.Hoop, y.Hoop)
		c.fig(process.SpoilsFit, at+", judged", figNumber(x.Equivalent, "MPa"), figNumber(y.Equivalent, "MPa"))
		c.fig(process.SpoilsFit, at+", allowed", figNumber(x.Allowed, "MPa"), figNumber(y.Allowed, "MPa"))
		c.fig(process.SpoilsFit, at+", by", figOptText(x.Criterion), figOptText(y.Criterion))
		yes(process.SpoilsProof, at+", borne", x.OK, y.OK)
	}
	for i := range max(len(a.PressForce), len(b.PressForce)) {
		x, y := nth(a.PressForce, i), nth(b.PressForce, i)
		at := fmt.Sprintf("press force, place %d", i+1)
		c.fig(process.SpoilsFit, at, figLength(x.Depth), figLength(y.Depth))
		numbers(process.SpoilsFit, at, "N", plain(x.Force), plain(y.Force))
	}
	for i := range max(len(a.Joints), len(b.Joints)) {
		x, y := nth(a.Joints, i), nth(b.Joints, i)
		at := "held by " + cmp.Or(x.Way, y.Way)
		c.fig(process.SpoilsFit, at, figOptText(x.Way), figOptText(y.Way))
		yes(process.SpoilsFit, at+", taken", x.Taken, y.Taken)
		yes(process.SpoilsFit, at+", sound", x.Sound, y.Sound)
		numbers(process.SpoilsFit, at+", torque", "N·m", plain(x.Torque), plain(y.Torque))
		numbers(process.SpoilsFit, at+", push-out", "N", plain(x.PushOut), plain(y.PushOut))
		spans(process.SpoilsFit, at+", bore closes by", x.Closure, y.Closure)
		c.fig(process.SpoilsFit, at+", tension in the housing", figNumber(x.HubHoop, "MPa"), figNumber(y.HubHoop, "MPa"))
		c.fig(process.SpoilsFit, at+", axis off", figFine(x.OffCentre), figFine(y.OffCentre))
		c.fig(process.SpoilsFit, at+", hottest use", figNumber(x.HottestUse, "°C"), figNumber(y.HottestUse, "°C"))
		c.fig(process.SpoilsFit, at+", times the load", figNumber(x.Reserve, ""), figNumber(y.Reserve, ""))
		c.fig(process.SpoilsFit, at+", for", figOptText(x.Note), figOptText(y.Note))
		c.sentences(process.SpoilsFit, at+", unsound because", x.Reasons, y.Reasons)
	}
	for i := range max(len(a.Assembly), len(b.Assembly)) {
		x, y := nth(a.Assembly, i), nth(b.Assembly, i)
		at := "put in by " + cmp.Or(x.Name, y.Name)
		c.fig(process.SpoilsFit, at, figOptText(x.Name), figOptText(y.Name))
		yes(process.SpoilsFit, at+", possible", x.Possible, y.Possible)
		c.fig(process.SpoilsFit, at+", housing at", figNumber(x.HubTo, "°C"), figNumber(y.HubTo, "°C"))
		c.fig(process.SpoilsFit, at+", sleeve at", figNumber(x.SleeveTo, "°C"), figNumber(y.SleeveTo, "°C"))
		c.fig(process.SpoilsFit, at+", clearance", figFine(x.Clearance), figFine(y.Clearance))
		c.fig(process.SpoilsFit, at+", force", figNumber(float64(x.Force), "N"), figNumber(float64(y.Force), "N"))
		c.fig(process.SpoilsWords, at+", why", figOptText(x.Why), figOptText(y.Why))
		c.sentences(process.SpoilsWords, at+", caution", x.Cautions, y.Cautions)
	}
	x, y := a.Chuck, b.Chuck
	c.fig(process.SpoilsFit, "chuck, grip of a jaw", figNumber(float64(x.Grip), "N"), figNumber(float64(y.Grip), "N"))
	c.fig(process.SpoilsFit, "chuck, most grip", figNumber(float64(x.GripMost), "N"), figNumber(float64(y.GripMost), "N"))
	c.fig(process.SpoilsFit, "chuck, lobes", figFine(x.Lobes), figFine(y.Lobes))
	c.fig(process.SpoilsFit, "chuck, lobes on six pads", figFine(x.SixPads), figFine(y.SixPads))
	c.fig(process.SpoilsFit, "chuck, lobes allowed", figFine(x.Allowed), figFine(y.Allowed))
	yes(process.SpoilsFit, "chuck, thick for the formula", x.Rough, y.Rough)
	c.fig(process.SpoilsFit, "chuck, outside", figSize(x.OuterDia), figSize(y.OuterDia))
	c.fig(process.SpoilsFit, "chuck, inside", figSize(x.Bored), figSize(y.Bored))
	c.sentences(process.SpoilsWords, "chuck, instead", x.Instead, y.Instead)
	c.sentences(process.SpoilsFit, "feature of the sleeve", featureLines(a.Details), featureLines(b.Details))
	c.sentences(process.SpoilsFit, "bonding", a.Bonding, b.Bonding)
	c.sentences(process.SpoilsFit, "lathe work", a.Lathe, b.Lathe)
	c.sentences(process.SpoilsFit, "order of work", orderLines(a.Order), orderLines(b.Order))
	c.sentences(process.SpoilsWords, "caution of the sleeve", a.Cautions, b.Cautions)
	c.fig(process.SpoilsWords, "why so", figOptText(a.Why), figOptText(b.Why))
	c.fig(process.SpoilsWords, "what the other way needs", figOptText(a.Other), figOptText(b.Other))
}

// nth is one of a list, or the zero value beyond its end.
func nth[T any](l []T, i int) T {
	if i < len(l) {
		return l[i]
	}
	var zero T
	return zero
}

func plain[T ~float64](v [2]T) [2]float64 { return [2]float64{float64(v[0]), float64(v[1])} }

func featureLines(d []sleeve.Detail) []string {
	var out []string
	for _, x := range d {
		out = append(out, x.What+": "+x.How)
	}
	return out
}

func orderLines(o []sleeve.OrderStep) []string {
	var out []string
	for _, x := range o {
		if x.Hold {
			x.Text = "HOLD: " + x.Text
		}
		out = append(out, x.Text)
	}
	return out
}
