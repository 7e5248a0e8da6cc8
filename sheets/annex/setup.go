package annex

import (
	"fmt"
	"strings"

	"borewright/process"
	"borewright/process/qty"
	"borewright/sheets/figure"
	"borewright/sheets/page"
)

// With is the annex with the tools of some visits in the job; nil are the job's own.
func (b *Annex) With(t *process.Tools) *Annex {
	one := *b
	if t != nil {
		one.Known = b.Sum()
		if one.Job = b.Job.Using(t); one.Job.Machine != nil {
			one.Machine = one.Job.Machine
		}
	}
	return &one
}

// AddSetUp says what to put in the spindle and where zero is, for each bar with its cutter.
func (b *Annex) AddSetUp() {
	for _, h := range b.Sides() {
		one := *b
		one.Head = h
		one.addSetUps()
	}
}

func (b *Annex) addSetUps() {
	all := b.Plan.Tools()
	if !b.Plan.Several() {
		b.With(nil).addSetUp(b.From(), nil, false)
		return
	}
	for _, t := range all {
		one := b.With(t)
		one.addSetUp(": "+one.ToolsSaid()+b.From(), t, true)
	}
}

func (b *Annex) addSetUp(title string, t *process.Tools, several bool) {
	bar, cut := b.Job.Bar, b.Job.Cutter
	steps := &page.Table{
		Caption: "Bar" + quoted(bar.Name) + ", from the spindle nose outward:",
		Columns: []page.Column{{Head: []string{"step"}, Align: page.Decimal}, {Head: []string{"diameter"}, Align: page.Decimal}, {Head: []string{"length"}, Align: page.Decimal},
			{Head: []string{"ends", "from nose"}, Align: page.Decimal}, {Head: []string{"hole"}, Align: page.Decimal}, {Head: []string{"made of"}}},
	}
	var end qty.Length
	for i, s := range bar.Steps {
		end += s.Length
		hole := "solid"
		if s.Hole > 0 {
			hole = b.U.Bare(s.Hole)
		}
		steps.Rows = append(steps.Rows, page.Row{Cells: []string{fmt.Sprint(i + 1), b.U.Bare(s.Diameter), b.U.Format(s.Length), b.U.Format(end), hole, s.Material.Name}})
	}
	kv := &page.KeyValues{Items: []page.KeyValue{
		page.KV("Stickout", b.U.SayBoth(qty.Plain(bar.Stickout()))+" from the nose to the end of the bar"),
	}}
	add := func(k, v string) { kv.Items = append(kv.Items, page.KV(k, v)) }
	if bar.Stands[1] > 0 {
		kv.Items[0].Value += ": clamp it there"
	}
	if bar.Drawn > 0 {
		add("Quill", "drawn out "+b.U.SayBoth(qty.Plain(bar.Drawn))+" and clamped: step 1")
	}
	if bar.CutterAt > 0 {
		add("Cutter", b.U.SayBoth(qty.Plain(bar.CutterAt))+" from the nose to the tip")
	}
	if bar.FeedBy == process.QuillFeed {
		rest := "The rest stays clamped."
		if b.Machine.Control != nil {
			rest = b.still("The table") + "; X and Y are free for the program."
		}
		how := "the stickout grows as it feeds"
		if bar.Inboard != nil {
			how = "it pushes the bar through both bearings, which stand still"
		}
		add("Feed by", "quill: "+how+". "+rest)
		if bar.Standoff > 0 {
			add("Nose to face", b.U.SayBoth(qty.Plain(bar.Standoff))+"; it stays while the quill feeds")
		}
	} else {
		add("Feed by", "table: "+b.still("the quill")+", the stickout as it is")
	}
	if o := bar.Inboard; o != nil {
		s := "middle of the bearing " + b.U.Say(qty.Plain(o.At)) + " from the nose"
		if o.Clearance > 0 {
			s += "; running clearance " + b.U.Say(qty.Plain(o.Clearance)) + " on diameter"
		}
		add("Inboard bearing", s+"; the spindle turns the bar through a driver that floats")
	}
	if o := bar.Outboard; o != nil {
		s := "middle of the bearing " + b.U.Say(qty.Plain(o.At)) + " from the nose"
		if g := b.Job.Guide(); g != nil {
			s = "bush in " + g.Name + ", middle " + b.U.Say(qty.Plain(b.Job.OutboardAt(b.Job.FirstCut()))) + " from the nose as the first cut begins"
			if bar.FeedBy == process.TableFeed {
				s += ", nearer as the work is fed"
			}
		}
		if b.FaceSaid() != "" && o.Station == "" {
			s += ", beyond the work; it stands on the machine and stays when the table turns"
		}
		if o.Clearance > 0 {
			s += "; running clearance " + b.U.Say(qty.Plain(o.Clearance)) + " on diameter"
		}
		add("Outboard support", s)
	} else {
		add("Outboard support", "none: the bar ends in the air")
	}

	edge := "not stated"
	if cut.Material != nil {
		edge = cut.Material.Name
	}
	if cut.Name != "" {
		add("Cutter's name", cut.Name)
	}
	add("Cutter material", edge)
	add("Nose radius", b.U.SayBoth(qty.Plain(cut.NoseRadius)))
	if cut.Lead != 0 {
		add("Lead", qty.KindAngle.Say(cut.Lead)+" from the direction of feed; trail "+qty.KindAngle.Say(cut.Trail)+"; rake "+qty.KindAngle.Say(cut.Rake))
	}
	if cut.Most > 0 {
		add("Cutter sets from", b.U.SayRange(cut.Least, cut.Most)+", in this bar")
	}
	if b.Machine.SetDial > 0 {
		turn := ""
		if b.Machine.DialTurn > 0 {
			turn = ", " + qty.KindNumber.Bare(float64(b.Machine.DialTurn)/float64(b.Machine.SetDial)) + " to a turn"
		}
		add("Cutter dial", "1 graduation = "+b.U.Say(qty.Graduation(b.Machine.SetDial))+" on diameter"+turn)
	}
	if b.Machine.Dial > 0 {
		add("Axis dials", "1 graduation = "+b.U.Say(qty.Graduation(b.Machine.Dial)))
	}
	face := "the face that the spindle enters, with the cutter's tip; depths count inward from it"
	if c := b.Machine.Control; c != nil && c.Tool > 0 {
		switch tool := fmt.Sprintf("T%d, called by the program at its start", c.Tool); {
		case bar.Outboard != nil:
			in := "an outboard support"
			if bar.Inboard != nil {
				in = "two bearings"
			}
			add("Tool", "none is called: the bar runs in "+in+" and is put in by hand")
		case c.HomeWord == 0:
			add("Tool", tool+": bar out of the work first, the slides do not go home before it")
		default:
			add("Tool", tool)
		}
	}
	if h, long := b.LengthOffset(); h != "" {
		add("Length offset", h+": "+b.U.SayBoth(qty.Plain(long))+" from the gauge line to the tip by these figures. A bar held by its stickout has another length each time it is clamped: measure it as it is held, and enter that")
		face = "the face that the spindle enters: the work offset is set with the gauge line at it, and " + h + " adds the bar, so that positions are of the tip; depths count inward from it"
	}
	if f := b.FaceMeans(); f != "" {
		face += ". It is the " + f
	}
	zero := &page.KeyValues{Items: []page.KeyValue{
		page.KV("X0 Y0", "the true axis of the line of bores, found from the swept stations, not from the worn bore"),
		page.KV(b.Job.FeedLetter().String()+"0", face),
	}}
	var blocks []page.Block
	if f := figure.SetupWith(b.Head, t, several); f != nil {
		blocks = append(blocks, f)
	}
	if len(bar.Steps) > 0 {
		blocks = append(blocks, steps)
	}
	b.Sheet.Add("Set up"+title, append(blocks, kv, page.Head("Work zero"), zero)...)
}

// LengthOffset is the offset that the program calls, and the length by the job: from the
// line that the machine measures tools from to the tip. "": none is called.
func (b *Annex) LengthOffset() (h string, long qty.Length) {
	c := b.Machine.Control
	if c == nil || c.LengthOffset == 0 || b.Job.FeedLetter() != 'Z' {
		return "", 0
	}
	return fmt.Sprintf("H%d", c.LengthOffset), b.Job.Bar.CutterAt - b.Job.QuillOut() + c.GaugeLine
}

// Slides says which stay free: a program cannot move one that is clamped.
func (b *Annex) Slides() string {
	if b.Machine.Control == nil {
		for _, bore := range b.Plan.Bores {
			for _, v := range bore.Visits {
				if v.Shift() > 0 {
					return "Others clamped; X free for the way out alone."
				}
			}
		}
		return "Slides that do not feed are clamped."
	}
	placed := strings.Join(b.Placed(), " and ")
	if placed != "" {
		placed = ", " + placed + " (placed before the first pass)"
	}
	return fmt.Sprintf("Free for the program: X and Y%s, %s (feeds)%s. All others clamped.", b.Across(), b.Job.FeedLetter(), placed)
}

// still says how a slide along the bore that does not feed stays.
func (b *Annex) still(slide string) string {
	if c := b.Machine.Control; c != nil && c.OtherSlide == process.OtherPlaced && len(b.Placed()) > 0 {
		return slide + " stays where the program puts it"
	}
	return slide + " stays clamped"
}

func quoted(s string) string {
	if s == "" {
		return ""
	}
	return ` "` + s + `"`
}

// AddStations is the line of bores as it stands.
func (b *Annex) AddStations() {
	for _, h := range b.Sides() {
		one := *b
		one.Head = h
		one.addStations()
	}
}

func (b *Annex) addStations() {
	title := "Stations, inward from the face, in "
	if f := b.FaceSaid(); f != "" {
		title = "Stations, inward from the " + f + ", in "
	}
	t := &page.Table{Columns: []page.Column{{Head: []string{"no."}, Align: page.Decimal}, {Head: []string{"station"}}, {Head: []string{"from"}, Align: page.Decimal},
		{Head: []string{"to"}, Align: page.Decimal}, {Head: []string{"diameter", "now"}, Align: page.Decimal}, {Head: []string{"what"}}}}
	for i, s := range b.Job.Stations {
		var what []string
		if s.Swept {
			what = append(what, "sweep")
		}
		for _, bore := range b.Plan.Bores {
			if bore.Bore.Station == i {
				what = append(what, fmt.Sprintf("bore %d, %s", b.BoreNumber(bore), bore.Bore.Repair))
			}
		}
		if s.Blind {
			what = append(what, "blind")
		}
		if s.Relief > 0 {
			what = append(what, "relief "+b.U.Format(s.Relief))
		}
		if len(what) == 0 {
			what = append(what, "pass through")
		}
		t.Rows = append(t.Rows, page.Row{Cells: []string{fmt.Sprint(i + 1), s.Name, b.U.Format(s.From), b.U.Format(s.To), b.U.Bare(s.Diameter), strings.Join(what, "; ")}})
	}
	b.Sheet.Add(title+b.U.Word(), t)
}
