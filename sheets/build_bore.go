package sheets

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/fact"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/sheets/card"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
)

// bore adds a section for every visit to one bore.
func (b *builder) bore(i int) {
	x := b.Plan.Bores[i]
	head := b.boreHead(x)
	switch {
	case len(x.Visits) == 0 && x.Home != nil:
		b.sleeve(i)
	case len(x.Visits) == 0:
		b.sheet.Add(head, &page.Paragraph{Strong: true, Text: "No passes: the plan did not get this far."})
		b.sleeve(i)
	}
	for k := range x.Visits {
		title := head
		if len(x.Visits) > 1 {
			title += fmt.Sprintf(", visit %d of %d", k+1, len(x.Visits))
		}
		if t := b.Words.Say(x.Visits[k].Title); t != "" {
			title += ": " + t
		}
		b.sheet.Add(title, b.visitBlocks(i, k)...)
		b.visit++
		if k == 0 {
			b.sleeve(i)
		}
	}
}

func (b *builder) boreHead(x plan.Bore) string {
	return fmt.Sprintf("Bore %d of %d, %s", b.BoreNumber(x), len(b.Job.Bores), x.Station.Name)
}

func (b *builder) visitBlocks(i, k int) []page.Block {
	x := b.Plan.Bores[i]
	v := x.Visits[k]
	var out []page.Block
	out = append(out, &page.KeyValues{Items: append(b.found(x, k), b.landed(x, k)...)})
	if len(v.Passes) > 0 {
		out = append(out, page.Head("Passes, in "+b.U.Word()), b.passTable(v, true))
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
func (b *builder) found(x plan.Bore, k int) []page.KeyValue {
	v := x.Visits[k]
	var kv []page.KeyValue
	add := func(k, v string) { kv = append(kv, page.KV(k, v)) }
	if !b.Plan.Feasible {
		kv = append(kv, b.control(x, k, b.visit)...)
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

// control is what the program of a visit, the nth of all, does not say by itself.
func (b *builder) control(x plan.Bore, k, n int) []page.KeyValue {
	v := x.Visits[k]
	var kv []page.KeyValue
	add := func(k, v string) { kv = append(kv, page.KV(k, v)) }
	if c := b.Machine.Control; c != nil && n < len(b.programs) && len(b.programs) == b.visits() {
		add("Program", b.programs[n])
		b.unsaid(c, v, n, add)
		if m := len(v.Passes); m > 0 && c.RestartStep > 0 {
			first, last := v.Passes[0].N, v.Passes[m-1].N
			add("Restart", fmt.Sprintf("at the stop before a pass, N%d times its number: pass %d at N%d to pass %d at N%d", c.RestartStep, first, c.RestartStep*first, last, c.RestartStep*last))
		}
	}
	for _, l := range b.AtControl(&v.Visit) {
		add(l[0], l[1])
	}
	return kv
}

// chatter says which passes are quiet and how sure the size is.
func (b *builder) chatter(v plan.Visit) []page.KeyValue {
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
			kv = append(kv, page.KV("Scatter from", b.Words.Say(fact.New(s[0].Cause))+" "+qty.KindShare.Say(s[0].Of)+", "+b.Words.Say(fact.New(s[1].Cause))+" "+qty.KindShare.Say(s[1].Of)))
		}
	}
	return kv
}

// compliance says how far the bar bends for the force at the cutter.
func (b *builder) compliance(c [2]float64) string {
	least, most := qty.KindCompliance.Of(c[0]), qty.KindCompliance.Of(c[1])
	if b.U.Bare(least) == b.U.Bare(most) {
		return b.U.Say(most)
	}
	return b.U.SayRange(least, most)
}

func (b *builder) reading(r process.Reading) string {
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

func (b *builder) visits() int {
	n := 0
	for _, x := range b.Plan.Bores {
		n += len(x.Visits)
	}
	return n
}

// landed is what the visit must leave.
func (b *builder) landed(x plan.Bore, k int) []page.KeyValue {
	v := x.Visits[k]
	kv := []page.KeyValue{
		page.KV("To land", b.U.SayLimitsOfSize(v.Limits.Low, v.Limits.High)+b.fit(x, k)+", aim at "+b.U.Say(v.Limits.Aim)),
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

// fit names the fit of a visit after the size it is counted from: the bore's
// nominal where the visit lands the finish, the sleeve's outside where it
// makes the housing.
func (b *builder) fit(x plan.Bore, k int) string {
	v, f := x.Visits[k], x.Bore.Finish
	var nominal qty.Diameter
	switch s, cold := b.Job.Sleeve, v.Limits.InWork(b.U, -v.Limits.Warm); {
	case cold.Low == f.Low && cold.High == f.High:
		nominal = f.Nominal
	case s != nil && x.Bore.Repair == process.SleeveRepair && k == 0:
		nominal = s.Outside
	}
	return b.Landing(nominal, v.Limits)
}

// hone says in a line why the edge is honed before a pass.
func (b *builder) hone(n int, h *schedule.Hone) string {
	why := h.Why
	if why.Kind == schedule.HoneLimit { // the figures stand below the table
		why = fact.New(schedule.HoneBreaks, why.Args...)
	}
	return fmt.Sprintf("HONE the edge before pass %d: %s", n, b.Words.Say(why))
}

// passTable is what the operator cuts from. With stops, hold points stand
// between the rows, where they come.
func (b *builder) passTable(v plan.Visit, stops bool) *page.Table {
	dial, set := b.SetColumn()
	t := &page.Table{Columns: []page.Column{
		{Head: []string{"no"}, Align: page.Decimal}, {Head: []string{"pass"}},
		{Head: []string{"set", "cutter"}, Align: page.Decimal, Key: true}, {Head: dial, Align: page.Decimal},
		{Head: []string{"gauge", "low"}, Align: page.Decimal, Key: true}, {Head: []string{"gauge", "high"}, Align: page.Decimal, Key: true},
		{Head: []string{"rev/", "min"}, Align: page.Decimal}, {Head: []string{"feed", "a rev"}, Align: page.Decimal},
		{Head: []string{"depth", "of cut"}, Align: page.Decimal}, {Head: []string{"", "min"}, Align: page.Decimal}, {Head: []string{"see"}},
	}}
	marks, o := map[string]string{}, b.U.Other()
	for _, p := range v.Passes {
		if p.Hone != nil && stops {
			t.Rows = append(t.Rows, page.Row{Stop: true, Across: b.hone(p.N, p.Hone)})
		}
		turn := ""
		if set != nil {
			turn = set(p)
		}
		mark := ""
		if limit := b.Words.Say(p.LimitedBy); limit != "" {
			var seen bool
			if mark, seen = marks[limit]; !seen {
				mark = letters(len(marks)) + ")"
				marks[limit] = mark
				t.Notes = append(t.Notes, page.Note{Mark: mark, Text: "limited by " + limit})
			}
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(p.N), p.Kind.String(), b.U.Bare(p.Setting), turn, b.U.Bare(p.Low), b.U.Bare(p.High),
			b.U.Bare(p.Speed), b.U.Format(p.Feed), b.U.Format(p.Depth), qty.KindMinutes.Bare(p.Minutes), mark},
			Other: []string{"", "", o.Bare(p.Setting), "", o.Bare(p.Low), o.Bare(p.High), "", o.Format(p.Feed), o.Format(p.Depth), "", ""}})
		if p.Hold != nil && stops {
			t.Rows = append(t.Rows, page.Row{Stop: true, Across: fmt.Sprintf("HOLD after pass %d: stop, measure, then go on", p.N)})
		}
	}
	if set == nil {
		const at = 3 // the column that there is none of
		t.Columns = slices.Delete(t.Columns, at, at+1)
		for i, row := range t.Rows {
			if len(row.Cells) > at {
				t.Rows[i].Cells, t.Rows[i].Other = slices.Delete(row.Cells, at, at+1), slices.Delete(row.Other, at, at+1)
			}
		}
	}
	return t
}

// letters counts a, b … z, aa, ab …
func letters(n int) string {
	s := ""
	for n++; n > 0; n = (n - 1) / 26 {
		s = string(rune('a'+(n-1)%26)) + s
	}
	return s
}

// namePlate finds the levers: where the speeds and feeds of the passes stand
// in the machine's ladders. Both systems are printed, because a plate may be
// in the other one.
func (b *builder) namePlate(v plan.Visit) *page.KeyValues {
	kv := &page.KeyValues{}
	seen := map[string]bool{}
	add := func(k, s string) {
		if !seen[k+s] {
			seen[k+s] = true
			kv.Items = append(kv.Items, page.KV(k, s))
		}
	}
	for _, p := range v.Passes {
		if len(b.Machine.Speeds.Steps) > 0 {
			s := card.Step(b.Machine.Speeds, float64(p.Speed))
			add("Speed lever", b.U.Say(p.Speed)+", "+s)
		}
	}
	for _, p := range v.Passes {
		if len(b.Machine.Feeds.Steps) > 0 {
			s := card.Step(b.Machine.Feeds, p.Feed.MM())
			add("Feed lever", b.U.Say(p.Feed)+"/rev ("+b.U.Other().Say(p.Feed)+"/rev), "+s)
		}
	}
	for i := len(kv.Items) - 1; i > 0; i-- {
		if kv.Items[i].Key == kv.Items[i-1].Key {
			kv.Items[i].Key = ""
		}
	}
	kv.Items = append(kv.Items, b.Settings(v)...)
	add("Gauge", "what the bore gauge should say after the pass; outside of it, stop and ask")
	add("Depth of cut", "on radius")
	return kv
}

// programmersTable is what stands behind the passes.
func (b *builder) programmersTable(v plan.Visit) *page.Table {
	u, o := b.U, b.U.Other()
	num := func(head ...string) page.Column { return page.Column{Head: head, Align: page.Decimal} }
	t := &page.Table{Small: true, Caption: "Behind the passes, for the programmer and the reviewer (spring on diameter, out-of-round on radius):",
		Columns: []page.Column{num("no"), num("setting", o.String()), num("speed", u.Name(qty.KindCuttingSpeed)), num("cut", u.Name(qty.KindForce)), num("feed", u.Name(qty.KindForce)),
			num("radial", u.Name(qty.KindForce)), num("spring", u.String()), num("power", u.Name(qty.KindPower)), num("torque", u.Name(qty.KindTorque)), num("bar", u.Name(qty.KindStress)),
			num("Ra", u.Name(qty.KindRoughness)), num("out-of-", "round")}}
	for _, p := range v.Passes {
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(p.N), o.Bare(p.Setting), u.Bare(p.Cutting), u.Bare(p.CuttingForce), u.Bare(p.FeedForce),
			u.Bare(p.RadialForce), u.Bare(qty.Fine(p.Spring)), u.Bare(p.Power), u.Bare(p.Torque), u.Bare(qty.KindStress.Of(p.Stress)), u.Bare(qty.Roughness(p.Ra)), u.Bare(qty.Fine(p.OutOfRound))}})
	}
	return t
}

// hold is a stop with room for what was measured.
func (b *builder) hold(p schedule.Pass) []page.Block {
	t := &page.Table{Columns: []page.Column{{Head: []string{"o'clock"}}}}
	for _, c := range schedule.FormClocks() {
		t.Columns = append(t.Columns, page.Column{Head: []string{c}, Blank: true})
	}
	for _, at := range schedule.Form(&p) {
		t.Rows = append(t.Rows, page.Row{Cells: []string{at.Name, "", "", "", ""}})
	}
	out := []page.Block{
		page.Head(holdTitle(p)),
		&page.KeyValues{Items: []page.KeyValue{page.KV("Gauge should say", fmt.Sprintf("Ø%s to Ø%s %s, most likely Ø%s", b.U.Bare(p.Low), b.U.Bare(p.High), b.U, b.U.Bare(p.Expected)))}},
	}
	if len(p.Hold.Measure) > 0 {
		out = append(out, page.Ticks(b.Words.Each(p.Hold.Measure)))
	}
	out = append(out, t, &page.Blanks{Items: []page.Blank{page.Fill("Casting", b.U.Name(qty.KindTemperature)), page.Fill("Gauge", b.U.Name(qty.KindTemperature)), page.Fill("Initials", ""),
		page.Fill("Gauge no.", ""), page.Fill("Master no.", ""), page.Fill("Time", "")}})
	if !p.Hold.Then.None() {
		out = append(out, &page.KeyValues{Items: []page.KeyValue{page.KV("Then", b.Words.Sentence(p.Hold.Then))}})
	}
	return out
}

func holdTitle(p schedule.Pass) string {
	if p.Kind == schedule.Fitted {
		return fmt.Sprintf("HOLD, pass %d (%s: nothing is cut), about %s", p.N, p.Kind, qty.KindTime.Say(p.Hold.Minutes))
	}
	return fmt.Sprintf("HOLD after pass %d (%s), about %s", p.N, p.Kind, qty.KindTime.Say(p.Hold.Minutes))
}

// final is the record of what the visit landed.
func (b *builder) final(x plan.Bore, k int) []page.Block {
	v := x.Visits[k]
	return []page.Block{
		page.Head("Final limits"),
		&page.KeyValues{Items: []page.KeyValue{
			page.KV("Size", b.U.SayLimitsOfSize(v.Limits.Low, v.Limits.High)+b.fit(x, k)),
			page.KV("", "("+b.U.Other().SayLimitsOfSize(v.Limits.Low, v.Limits.High)+")"),
		}},
		&page.Blanks{Items: []page.Blank{page.Fill("Least", b.U.String()), page.Fill("Most", b.U.String()), page.Fill("Ra", b.U.Name(qty.KindRoughness)), page.Fill("Out-of-round", b.U.String()), page.Fill("Initials", "")}},
	}
}

// unsaid is what no other part of the sheet says, and comments that are left out would.
func (b *builder) unsaid(c *process.Control, v plan.Visit, n int, add func(k, v string)) {
	if c.Comments && c.Remarks == process.FullRemarks {
		return
	}
	says := "none"
	if c.Comments && c.Remarks == process.ShortRemarks {
		says = "short"
	}
	add("Comments", says+" in the program: what they do not say stands on this sheet")
	if n < len(b.planes) {
		add("Clear plane", fmt.Sprintf("%s%s %s, in front of the face: stops and moves to X0 Y0 are made there", b.Job.FeedLetter(), c.Units.Format(b.planes[n]), c.Units))
	}
	if v.Shift() > 0 || v.OffAxis != nil {
		add("Oriented stop", "before the first run check by hand that the tip stops at "+c.TipAtStop.String()+", seen from the spindle")
	}
}
