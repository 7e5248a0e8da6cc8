package head

import (
	"fmt"
	"strings"

	"borewright/process"
	"borewright/process/qty"
	"borewright/process/schedule"
)

// AtControl is what a program does around the cuts of a visit, as far as whoever stands at
// the control is to know of it: a name and the words.
func (h Head) AtControl(v *schedule.Visit) (out [][2]string) {
	c := h.Machine.Control
	if c == nil {
		return nil
	}
	add := func(k, s string) { out = append(out, [2]string{k, s}) }
	out = append(out, h.places(c)...)
	alone := h.Job.Bar.Outboard != nil
	if c.HomeWord != 0 && !alone {
		var turn []string
		for _, a := range c.HomeAxes {
			turn = append(turn, strings.Replace(a.String(), process.HomeFeed.String(), h.Job.FeedLetter().String(), 1))
		}
		add("Home", "at the start and at the end of the program "+strings.Join(turn, ", then ")+" by "+c.HomeWord.String()+": way clear, hands off")
	}
	if c.HoldOut > 0 && !alone {
		add("Measured", "with the tip at least "+h.U.Say(c.HoldOut)+" in front of the face: the program takes it there")
	}
	if c.OrientWord != 0 && (v.Shift() > 0 || v.OffAxis != nil) {
		add("Angle of M19", fmt.Sprintf("%s%d, where the tip points to %s", c.OrientWord, c.OrientAngle, c.TipAtStop))
	}
	for i := range v.Passes {
		if p := &v.Passes[i]; c.SpringAgain != 0 && p.Kind == schedule.Spring && p.Hold != nil {
			add("Once more", fmt.Sprintf("pass %d stands a second time behind its hold, in blocks with /: block delete on skips it, off takes it. It takes %s at most: only where the bore measured under %s",
				p.N, h.U.Say(h.U.Up(p.Spring)), h.U.Say(qty.Diameter(h.U.Down(v.Limits.High.Length()-p.Spring)))))
		}
	}
	if len(c.Gears) > 0 {
		add("Spindle ranges", gears(c, v.Passes))
	}
	return out
}

// Placed are the letters of what the program places before the first pass.
func (h Head) Placed() (letters []string) {
	c := h.Machine.Control
	if c == nil || h.Job.Bar.Outboard != nil {
		return nil
	}
	if other := h.Job.OtherPlaced(); other != 0 {
		letters = append(letters, other.String())
	}
	if c.TableWord != 0 {
		letters = append(letters, c.TableWord.String())
	}
	return letters
}

// places is where the other slide and the table stand, and who puts them there.
func (h Head) places(c *process.Control) (out [][2]string) {
	alone := h.Job.Bar.Outboard != nil
	by := "; the program puts it there before the first pass, the tip at the clear plane"
	if c.HomeWord != 0 {
		by = "; the program puts it there at its start, from home"
	}
	if other := h.Job.OtherLetter(); other != 0 && c.OtherSlide != process.OtherUnsaid {
		how := by
		if h.Job.OtherPlaced() == 0 {
			how = "; put it there and clamp it before the start"
		}
		out = append(out, [2]string{"Other slide", fmt.Sprintf("%s0 with %s%s; set its zero there. It stands still in every pass", other, h.Words.Say(h.Job.OtherStands()), how)})
	}
	if c.TableWord != 0 {
		how := by + "; the corners of the work swing, way clear all round"
		if alone {
			how = "; turn and clamp it before the bar goes in"
		}
		out = append(out, [2]string{"Table", fmt.Sprintf("at %s%d, where the face of depth 0 looks at the spindle%s", c.TableWord, h.Job.TableAngle(), how)})
	}
	return out
}

// gears says in which range of the spindle each pass is cut.
func gears(c *process.Control, all []schedule.Pass) string {
	word := func(p *schedule.Pass) string {
		for _, g := range c.Gears {
			if n := float64(p.Speed); g.Least <= n && n <= g.Most {
				return g.Word.String()
			}
		}
		return "none"
	}
	var said []string
	for i := 0; i < len(all); {
		k := i
		for k < len(all) && word(&all[k]) == word(&all[i]) {
			k++
		}
		said, i = append(said, word(&all[i])+": "+Passes(&all[i], &all[k-1])), k
	}
	return strings.Join(said, "; ")
}

// Passes names a run of passes.
func Passes(a, b *schedule.Pass) string {
	if a.N == b.N {
		return fmt.Sprintf("pass %d", a.N)
	}
	return fmt.Sprintf("passes %d to %d", a.N, b.N)
}
