package limits

import (
	"fmt"
	"strings"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/field/si"
	"borewright/process/fit/iso286"
	"borewright/process/fit/seats"
	"borewright/process/qty"
	"borewright/sheets/words"
)

// seatReport is the advice for a seat, in the units of u first. At most 80 columns.
func seatReport(u qty.Unit, s seats.Seat, a seats.Advice) string {
	var out strings.Builder
	part := "bore of the housing, for the outer ring of a rolling bearing"
	if s.Part == seats.Shaft {
		part = "seat on the shaft, for the inner ring of a rolling bearing"
	}
	out.WriteString(sizeIn(u, s.Size) + ": " + part + "\n\n")
	line := func(head, text string) { out.WriteString(headed(head, text)) }
	line("choose", a.Class+": "+inUnits(u, s.Size, a.Limits))
	if a.Closer != "" {
		get := iso286.Hole
		if s.Part == seats.Shaft {
			get = iso286.Shaft
		}
		if l, err := get(s.Size, a.Closer); err == nil {
			line("or", a.Closer+", to run more truly: "+inUnits(u, s.Size, l))
		}
	}
	if a.Ring.Lower != 0 {
		line("ring", inUnits(u, s.Size, a.Ring)+" (ISO 492, Normal class, from memory)")
		line("in the room", both(u, a.Cold))
		if a.Hot != a.Cold {
			line("at work", both(u, a.Hot))
		}
	}
	out.WriteString("\n" + spoken(u, a.Because, a.Mind))
	from := "ANSI/ABMA 7 as two open pages have it; what is said of split, thin and light alloy housings from memory"
	if s.Part == seats.Shaft {
		from = "ANSI/ABMA 7-1995 Table 1 as a scanned text has it; letters of the light load and bounds of heavily loaded balls from memory"
	}
	out.WriteString("\n" + headed("source", from))
	return out.String()
}

// runReport is the advice for a plain bearing.
func runReport(u qty.Unit, in seats.Running, r seats.Runs) string {
	var out strings.Builder
	out.WriteString(sizeIn(u, in.Size) + ": plain bearing on its shaft, clearance on diameter\n\n")
	out.WriteString(headed("choose", both(u, r.Wanted)+", installed and in the room"))
	for i, n := range r.Nearest {
		head := "near it"
		if i > 0 {
			head = ""
		}
		out.WriteString(headed(head, n.Name+": "+both(u, n.Clearance)))
	}
	out.WriteString("\n" + spoken(u, r.Because, r.Mind))
	out.WriteString("\n" + headed("in a job", fmt.Sprintf("finish = { mating = …, clearance = [%s, %s] }", u.Format(u.Up(r.Wanted.Least)), u.Format(u.Down(r.Wanted.Most)))))
	out.WriteString("\n" + headed("source", "general rules: 1/1000 of the diameter in oil and 1 to 3/1000 in grease (two sources each), by speed after Vogelpohl (from memory)"))
	return out.String()
}

// spoken is why, and what to mind.
func spoken(u qty.Unit, because, mind []fact.Fact) string {
	w := words.In(u)
	return headed("because", strings.Join(w.Each(because), "; ")) + headed("mind", w.Sentences(mind)...)
}

func sizeIn(u qty.Unit, d qty.Diameter) string { return u.SayBoth(d.Length()) }

// inUnits is limits of size in both systems, the reader's first.
func inUnits(u qty.Unit, d qty.Diameter, l iso286.Limits) string {
	low, high := l.Sizes(d)
	o := u.Other()
	return sizes(u, low, high) + " " + u.String() + " (" + sizes(o, low, high) + " " + o.String() + ")"
}

// both is a range of clearance in both systems, in words, the reader's first.
func both(u qty.Unit, c iso286.Range) string {
	say := func(u qty.Unit) string {
		unit := "mm"
		plain := func(l qty.Length) string { return qty.Metric.Decimals(l, 3) }
		if u == qty.Inches {
			unit, plain = "in", func(l qty.Length) string { return qty.Inches.Decimals(l, 4) }
		}
		return strings.TrimSuffix(sayRange(c, plain, unit), ", on diameter")
	}
	return say(u) + " (" + say(u.Other()) + ")"
}

// advice is what was advised as JSON.
type advice struct {
	size    qty.Diameter
	class   string
	limits  *iso286.Limits
	cold    *iso286.Range
	hot     *iso286.Range
	wanted  *iso286.Range
	nearest []seats.Named
	because []fact.Fact
	mind    []fact.Fact
}

// Describe is the page: deviations and clearance in µm; below 0 is tight.
func (a *advice) Describe(d *field.Desc) {
	um := func(d *field.Desc, key string, l qty.Length) {
		d.Is(key, func() any { return l.Microns() }).Decimals(1)
	}
	span := func(key string, r *iso286.Range) {
		if r != nil {
			d.Group(key, func(d *field.Desc) { um(d, "min", r.Least); um(d, "max", r.Most) })
		}
	}
	d.Is("nominal_mm", func() any { return a.size.MM() })
	if a.limits != nil {
		d.Is("class", func() any { return a.class })
		d.Group("limits", func(d *field.Desc) { um(d, "upper_um", a.limits.Upper); um(d, "lower_um", a.limits.Lower) })
	}
	span("clearance_um", a.cold)
	span("clearance_at_work_um", a.hot)
	span("clearance_wanted_um", a.wanted)
	if len(a.nearest) > 0 {
		field.ListBy(d, &a.nearest, "nearest", func(d *field.Desc, n *seats.Named) {
			d.Is("fit", func() any { return n.Name })
			d.Group("clearance_um", func(d *field.Desc) { um(d, "min", n.Clearance.Least); um(d, "max", n.Clearance.Most) })
		})
	}
	d.Facts(&a.because, "because")
	d.Facts(&a.mind, "mind").Sentence()
}

// seatJSON is the advice for a seat as JSON, runJSON that for a plain bearing.
func seatJSON(s seats.Seat, a seats.Advice) ([]byte, error) {
	p := &advice{size: s.Size, class: a.Class, limits: &a.Limits, because: a.Because, mind: a.Mind}
	if a.Ring.Lower != 0 {
		p.cold, p.hot = &a.Cold, &a.Hot
	}
	return si.Write(p, inWords)
}

// runJSON is seatJSON of a plain bearing.
func runJSON(in seats.Running, r seats.Runs) ([]byte, error) {
	return si.Write(&advice{size: in.Size, wanted: &r.Wanted, nearest: r.Nearest, because: r.Because, mind: r.Mind}, inWords)
}

// inWords says a fact in SI.
func inWords(f fact.Fact, sentence bool) string {
	if sentence {
		return words.In(qty.Metric).Sentence(f)
	}
	return words.In(qty.Metric).Say(f)
}
