package annex

import (
	"fmt"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// AddBore adds a section for every visit to one bore.
func (b *Annex) AddBore(i int) {
	x := b.Plan.Bores[i]
	bore := b.BoreTitle(x)
	switch {
	case len(x.Visits) == 0 && x.Home != nil:
		b.sleeve(i)
	case len(x.Visits) == 0:
		b.Sheet.Add(bore, &page.Paragraph{Strong: true, Text: "No passes: the plan did not get this far."})
		b.sleeve(i)
	}
	for k := range x.Visits {
		title := bore
		title += head.Called(x, k) + head.AtSetting(x, k)
		if t := b.Words.Say(x.Visits[k].Title); t != "" {
			title += ": " + t
		}
		b.Sheet.Add(title, b.visitBlocks(i, k)...)
		b.visit++
		if k == sleeveBehind(x) {
			b.sleeve(i)
		}
	}
}

// sleeveBehind is the visit behind which the sleeve of a bore is told: the last to the housing, or
// the first that is left.
func sleeveBehind(x plan.Bore) (k int) {
	for i, v := range x.Visits {
		if v.N == 1 {
			k = i
		}
	}
	return k
}

// BoreTitle heads what is told of a bore.
func (b *Annex) BoreTitle(x plan.Bore) string {
	return fmt.Sprintf("Bore %d of %d, %s", b.BoreNumber(x), len(b.Job.Bores), x.Station.Name)
}

func (b *Annex) visitBlocks(i, k int) []page.Block {
	x := b.Plan.Bores[i]
	one := *b
	one.Head = b.For(i, k)
	b = &one
	v := x.Visits[k]
	var out []page.Block
	out = append(out, &page.KeyValues{Items: append(b.found(x, k), b.landed(x, k)...)})
	if len(v.Passes) > 0 {
		out = append(out, page.Head("Passes, in "+b.U.Word()), b.PassTable(v, true))
		plate := b.namePlate(v)
		if plate.Items = append(plate.Items, b.Edge(v)...); len(plate.Items) > 0 {
			out = append(out, plate)
		}
		out = append(out, page.Head("The way out"), b.WaysOut(v), b.programmersTable(v))
	} else {
		out = append(out, &page.Paragraph{Strong: true, Text: "No passes: the plan did not get this far."})
	}
	if at := b.Mouth(v); at != nil {
		out = append(append(out, at...), figure.Mouth(b.Head, i, k)...)
	}
	if oldBore(x, v) {
		out = append(out, figure.Worn(b.Head, i)...)
	}
	return append(out, figure.Charts(b.Head, i, k)...)
}

// oldBore is whether the readings of the worn bore still say what is there.
func oldBore(x plan.Bore, v plan.Visit) bool {
	return v.N == 1 && (v.Behind == 0 || x.CleanUp != nil)
}

// found is what is there before the first cut.
func (b *Annex) found(x plan.Bore, k int) []page.KeyValue {
	v := x.Visits[k]
	var kv []page.KeyValue
	add := func(k, v string) { kv = append(kv, page.KV(k, v)) }
	if !b.Plan.Feasible {
		kv = append(kv, b.AtControlOf(x, k, b.visit)...)
	}
	add("Metal", head.Material(v.Material))
	if c := b.Machine.Control; c != nil && c.Coolant != 0 {
		if v.Material.CutDry(b.Job.Cutter.Material) {
			add("Coolant", "none: cut dry")
		} else {
			add("Coolant", c.Coolant.String()+" while a pass cuts; off before each stop")
		}
	}
	found := b.U.SayBoth(v.Start)
	if v.StartMost > v.Start {
		o := b.U.Other()
		found = "Ø" + b.U.Bare(v.Start) + " to " + b.U.Say(v.StartMost) + " (Ø" + o.Bare(v.Start) + " to " + o.Say(v.StartMost) + ")"
	}
	switch {
	case v.Behind > 0:
		add("Stands at", found+" after pass "+strconv.Itoa(v.Behind)+", as measured, with what a gauge across cannot see of the old bore")
	case v.N == 1:
		add("Found", found)
	default: // a sleeve: as it closes, and as far as it sits off the line
		add("Expected inside", found+" about the true axis")
	}
	add("Bore depth", "from "+b.U.SayRange(v.From, v.To))
	end := "begin at " + b.U.Format(v.Clear) + ", end at " + b.U.Say(v.End)
	if x.Station.Blind {
		end += "; the end is closed: never past " + b.U.Say(x.Station.To+x.Station.Relief)
	}
	add("Feed", end)
	for _, p := range v.Passes {
		if p.Band != nil {
			add("Witness cut", "feed to "+b.U.Say(p.Band.To)+" and no further. It marks the near end alone: set to cut, the tip reaches the far end only by cutting all the way. Behind the band the old bore stays")
		}
	}
	if oldBore(x, v) {
		for _, w := range x.Bore.Wear {
			add("Read at "+b.U.Format(w.Depth), b.reading(w))
		}
	}
	if v.Overhang > 0 {
		add("Stickout", qty.KindRatio.Bare(v.Overhang)+" bar diameters; the bar gives "+b.compliance(v.Compliance)+" at the cutter")
	}
	if bar := v.Bar; bar.Hz > 0 {
		add("Bar", "hangs "+b.U.Say(qty.Fine(bar.Hang))+" ±"+b.U.Bare(qty.Fine(bar.Doubt))+" at the cutter; rings first at "+qty.KindFrequency.Say(bar.Hz)+
			", damping "+qty.KindNumber.Bare(bar.Damping[0])+" to "+qty.KindNumber.Bare(bar.Damping[1])+", "+qty.KindShare.Say(bar.Joint)+" of that swing is the spindle's")
	}
	return append(kv, b.chatter(v)...)
}

// chatter says which passes are quiet and how sure the size is.
func (b *Annex) chatter(v plan.Visit) []page.KeyValue {
	var kv []page.KeyValue
	for i := 0; i < len(v.Passes); {
		q := v.Passes[i]
		j := i
		least, most := q.Stability.Margin[0], q.Stability.Margin[1]
		for j < len(v.Passes) && v.Passes[j].Stability.Chatter() == q.Stability.Chatter() {
			least, most = min(least, v.Passes[j].Stability.Margin[0]), max(most, v.Passes[j].Stability.Margin[1])
			j++
		}
		if q.Stability.Hz > 0 {
			kv = append(kv, page.KV("Chatter", head.Passes(&q, &v.Passes[j-1])+": "+b.Words.Say(setup.Stability{Margin: [2]float64{least, most}, Hz: q.Stability.Hz}.Fact())))
		}
		i = j
	}
	if n := len(v.Passes); n > 0 && len(v.Along) > 1 && v.Passes[n-1].Taper > qty.Micrometre {
		stiff, soft := v.Along[0], v.Along[0]
		for _, a := range v.Along {
			if a.Compliance < stiff.Compliance {
				stiff = a
			}
			if a.Compliance > soft.Compliance {
				soft = a
			}
		}
		kv = append(kv, page.KV("Shape", "left larger by "+b.U.Say(qty.Fine(v.Passes[n-1].Taper))+" at depth "+b.U.Format(stiff.Depth)+" than at "+b.U.Say(soft.Depth)+": the quill gives more the further it is out"))
	}
	if v.Budget != nil {
		size := b.Words.Say(v.Budget.Fact()) + "; 95 of 100 between Ø" + b.U.Format(v.Budget.Low.Length()) + " and " + b.U.Say(v.Budget.High)
		kv = append(kv, page.KV("On size", size))
		if s := v.Budget.Shares; len(s) > 1 {
			kv = append(kv, page.KV("Unsure by", b.Words.Say(fact.New(s[0].Cause))+", "+qty.KindShare.Say(s[0].Of)+" of it, and "+b.Words.Say(fact.New(s[1].Cause))+", "+qty.KindShare.Say(s[1].Of)))
		}
	}
	return kv
}

// Outlook is how sure the visit is that is the least sure of its size, and how the loudest pass
// of all stands against chatter, where it may sing.
func (b *Annex) Outlook() *page.KeyValues {
	kv := &page.KeyValues{}
	var chance float64
	var least, loudest string
	var loud *setup.Stability
	for i, x := range b.Plan.Bores {
		for k, v := range x.Visits {
			in := ""
			if len(b.Plan.Bores) > 1 || x.Works() > 1 {
				in = b.Plan.Bores[i].Station.Name + head.Called(x, k) + ": "
			}
			if v.Budget != nil && (least == "" || v.Budget.Chance < chance) {
				chance, least = v.Budget.Chance, in+b.Words.Say(v.Budget.Fact())
			}
			for j := range v.Passes {
				if q := &v.Passes[j].Stability; q.Chatter() != setup.Quiet && (loud == nil || louder(q, loud)) {
					loud, loudest = q, in+b.Words.Say(q.Fact())
				}
			}
		}
	}
	if least != "" {
		kv.Items = append(kv.Items, page.KV("On size", least))
	}
	if loud != nil {
		kv.Items = append(kv.Items, page.KV("Chatter", loudest))
	}
	return kv
}

// louder is whether a pass is nearer to chatter than another: by its voice, and of one voice by the
// width of the chip that is quiet at the worst.
func louder(a, b *setup.Stability) bool {
	if a.Chatter() == b.Chatter() {
		return a.Margin[0] < b.Margin[0]
	}
	return setup.Louder(a.Chatter(), b.Chatter()) == a.Chatter()
}

// compliance says how far the bar bends for the force at the cutter.
func (b *Annex) compliance(c [2]float64) string {
	least, most := qty.KindCompliance.Of(c[0]), qty.KindCompliance.Of(c[1])
	if b.U.Bare(least) == b.U.Bare(most) {
		return b.U.Say(most)
	}
	return b.U.SayRange(least, most)
}

func (b *Annex) reading(r process.Reading) string {
	var s []string
	what := "radius: "
	for i, at := range r.At {
		switch {
		case i < len(r.Radius):
			s = append(s, qty.KindAngle.Say(at)+" "+b.U.Format(r.Radius[i]))
		case i < len(r.Across):
			what = "across: "
			s = append(s, qty.KindAngle.Say(at)+" "+b.U.Bare(r.Across[i]))
		}
	}
	return what + strings.Join(s, ", ")
}

// landed is what the visit must leave.
func (b *Annex) landed(x plan.Bore, k int) []page.KeyValue {
	v := x.Visits[k]
	to := "To land"
	if v.Part == schedule.Roughing {
		to = "To leave"
	}
	kv := []page.KeyValue{
		page.KV(to, b.U.SayLimitsOfSize(v.Limits.Low, v.Limits.High)+b.FitOf(x, k)+", aim at "+b.U.Say(v.Limits.Aim)),
		page.KV("", "("+b.U.Other().SayLimitsOfSize(v.Limits.Low, v.Limits.High)+")"),
	}
	var form []string
	if v.Ra > 0 {
		form = append(form, "Ra "+b.U.Say(qty.Roughness(v.Ra)))
	}
	if v.Roundness > 0 {
		form = append(form, "round within "+b.U.Say(qty.Fine(v.Roundness))+" of radius")
	}
	if v.Axis > 0 {
		form = append(form, "axis on the line within ± "+b.U.Say(v.Axis))
	}
	if len(form) > 0 {
		kv = append(kv, page.KV("", strings.Join(form, ", ")))
	}
	return kv
}

// FitOf names the fit of a visit after the size it is counted from: the bore's
// nominal where the visit lands the finish, the sleeve's outside where it
// makes the housing.
func (b *Annex) FitOf(x plan.Bore, k int) string {
	v, f := x.Visits[k], x.Bore.Finish
	var nominal qty.Diameter
	switch s, cold := b.Job.Sleeve, v.Limits.InWork(b.U, -v.Limits.Warm); {
	case cold.Low == f.Low && cold.High == f.High:
		nominal = f.Nominal
	case s != nil && x.Bore.Repair == process.SleeveRepair && v.N == 1 && v.Part != schedule.Roughing:
		nominal = s.Outside
	}
	return b.Landing(nominal, v.Limits)
}
