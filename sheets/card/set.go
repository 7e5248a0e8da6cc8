package card

import (
	"fmt"
	"math"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/sheets/page"
)

// Moved prints how a cutter is moved on by its dial: whole turns, and graduations
// besides.
func Moved(s schedule.Set) string {
	if s.From == 0 {
		return "set"
	}
	turns, rest := s.Turns, s.Graduations
	sign := "+"
	switch {
	case turns == 0 && rest == 0:
		return "leave"
	case turns < 0 || rest < 0:
		sign, turns, rest = "-", -turns, -rest
	}
	out := sign
	if turns != 0 {
		out += qty.KindCount.Bare(float64(turns)) + "t "
		if rest == 0 {
			return out[:len(out)-1]
		}
	}
	return out + halves(math.Abs(rest))
}

// halves prints whole and half graduations.
func halves(x float64) string {
	whole, part := math.Modf(x)
	switch {
	case part == 0:
		return qty.KindCount.Bare(whole)
	case whole == 0:
		return "½"
	}
	return qty.KindCount.Bare(whole) + "½"
}

// Graduations are some of an axis dial.
func (b Hand) Graduations(n float64) string {
	word := " graduations of "
	if n <= 1 {
		word = " graduation of "
	}
	return halves(n) + word + b.U.Say(qty.Graduation(b.Machine.Dial))
}

// SetColumn is the column of the pass table that says what the hand does to set the
// cutter: none where the setting itself is what it is set to.
func (b Hand) SetColumn() (head []string, cell func(schedule.Pass) string) {
	switch b.Job.Cutter.SetBy {
	case process.OverBar:
		return []string{"over", "bar"}, func(p schedule.Pass) string { return b.U.Format(p.Set.OverBar) }
	case process.Preset:
		return nil, nil
	}
	return []string{"cutter", "dial"}, func(p schedule.Pass) string { return Moved(p.Set) }
}

// Settings say how the cutter is set for the passes of a visit, and how well.
func (b Hand) Settings(v plan.Visit) []page.KeyValue {
	var kv []page.KeyValue
	add := func(k, s string) { kv = append(kv, page.KV(k, s)) }
	c := b.Job.Cutter
	bar := "with a bar of " + b.U.Say(c.Bar) + " at the cutter, as stated"
	if _, measured := b.Job.Places["cutter.bar"]; measured {
		bar = "with a bar of " + b.U.Say(c.Bar) + " at the cutter, as measured"
	}
	switch c.SetBy {
	case process.OverBar:
		add("Over bar", "what the micrometer reads over bar and tip: (bar + setting) / 2, "+bar)
	case process.Preset:
		add("Set cutter", "to a gauge, each time anew")
	default:
		dial := "moved on from the pass before; + opens, - closes; 1 = " + b.U.Say(qty.Graduation(b.Machine.SetDial)) + " on diameter"
		if b.Machine.DialTurn > 0 {
			dial += "; t = whole turns, " + b.U.Say(qty.Graduation(b.Machine.DialTurn)) + " each"
		}
		add("Cutter dial", dial+". Come to every figure from below")
		switch first := v.Passes[0]; {
		case first.Set.From > 0 && v.Stands.Sprang > 0:
			add("Stands at", b.U.Say(first.Set.From)+", by the size that was measured; the first move is from there")
		case first.Set.From > 0:
			add("Stands at", b.U.Say(first.Set.From)+", as it was set; the first move is from there")
		case first.Set.OverBar > 0:
			add("First setting", "micrometer over bar and tip "+b.U.Say(first.Set.OverBar)+", "+bar)
		}
		for _, p := range v.Passes[1:] {
			if p.Hone != nil && p.Hone.SetAnew {
				add(fmt.Sprintf("Set for pass %d", p.N), "micrometer over bar and tip "+b.U.Say(p.Set.OverBar)+": honing has taken the tip back")
			}
		}
	}
	if v.Passes[0].Set.OverBar > 0 {
		add("Bar", "measure it where the micrometer rests; half of what it is larger than stated goes on a reading")
	}
	within := "±" + b.U.Say(qty.Plain(b.Job.Limits.SettingError)) + " on diameter"
	if c.SetBy == process.Increment {
		within += " each move, ±" + b.U.Say(qty.Plain(b.Job.FirstSettingError())) + " over the bar"
	}
	if b.Job.Limits.SettingUsual {
		within += ", as most people hold it (common practice, no source)"
	} else {
		within += ", as the job says"
	}
	add("Set within", within)
	return kv
}
