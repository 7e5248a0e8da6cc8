package around

import (
	"fmt"
	"math"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
)

// placed is what a program of this visit is to place before the first pass: the axis of the
// other slide and that of the table, 0 where it is to leave them alone. A bar in an outboard
// support is never drawn or turned about.
func (f *Follower) placed() (other, table rs274.Axes) {
	if f.job.Bar.Outboard != nil {
		return 0, 0
	}
	if f.c.OtherSlide == process.OtherPlaced {
		other = rs274.Z | rs274.W
		other &^= f.axis
	}
	if f.c.TableWord == 'B' {
		table = rs274.B
	}
	return other, table
}

// apart is a move or a return of the other slide or of the table, and nothing else.
func (f *Follower) apart(axes rs274.Axes) bool {
	other, table := f.placed()
	return axes&(other|table) != 0 && axes&^(other|table) == 0
}

// place holds a move of the other slide or of the table: once, before the first pass, at
// rapid, the spindle stopped, from home or with the bar out of the work.
func (f *Follower) place(e *rs274.Event) {
	other, table := f.placed()
	axes := e.From.Moved(e.To)
	if axes&(other|table) == 0 {
		return
	}
	homes := f.homes()
	home := homes != "" && f.homed == homes && !f.moved
	which, right := "the other slide", fmt.Sprintf("%c0", f.otherLetter())
	if axes&other == 0 {
		which, right = "the table", fmt.Sprintf("B%d", f.angle())
	}
	want := "G0 " + right + " in a block of its own before the first pass, spindle stopped and bar out of the work"
	switch {
	case f.at.Inside:
		f.add(0, script.KindAxis, which+" moves with the tip at "+f.at.Tip, want)
	case !f.apart(axes):
		f.add(0, script.KindAxis, which+" moves together with another slide", want)
	case axes&other != 0 && axes&table != 0:
		f.add(0, script.KindAxis, "the other slide and the table move at once", "one after the other: "+want)
	case f.missed && f.at.Last < 0: // placed too late: said
	case f.at.Last >= 0 || f.entered:
		f.add(0, script.KindAxis, which+" moves after the first pass has begun", want)
	case e.Motion != rs274.Rapid:
		f.add('G', script.KindFeed, which+" moves at feed, where nothing is to be cut", want)
	case f.at.Turning:
		f.add(0, script.KindSpindle, which+" moves with the spindle turning", "M5 in a block before it")
	case f.wantTool() != 0 && !f.called:
		f.add(0, script.KindTool, which+" moves before the bar is called", fmt.Sprintf("T%d M6 at the start", f.wantTool()))
	case !home && f.at.Tip == "":
		f.add(0, script.KindAxis, which+" moves before the bar is known to be out of the work", fmt.Sprintf("G0 %c to the clear plane in a block before it", f.letter))
	case !home && f.at.Near:
		f.add(0, script.KindAxis, which+" moves with the tip "+f.at.Tip+", where the bar's end or hands have no room", fmt.Sprintf("G0 %c to the clear plane in a block before it", f.letter))
	case axes&table != 0 && other != 0 && !e.From.Has(other):
		f.add('B', script.KindAxis, "the table turns before the other slide is placed", fmt.Sprintf("G0 %c0 first: the slides stand clear before the table turns", f.otherLetter()))
	case axes&other != 0 && e.To.Linear(f.otherLetter()).Abs() > script.LeastInput(f.c)/2+1:
		f.add(f.otherLetter(), script.KindAxis, fmt.Sprintf("the other slide goes to %c %s", f.otherLetter(), f.c.Units.Say(e.To.Linear(f.otherLetter()))), right+": there it stands by the plan")
	case axes&table != 0 && math.Abs(e.To.B-float64(f.angle())) > 1e-9:
		f.add('B', script.KindAxis, fmt.Sprintf("the table turns to B%g", e.To.B), right+": there the face of depth 0 looks at the spindle")
	}
}

// enter holds a move that goes nearer than the hands' level: both stand where they are to.
func (f *Follower) enter(e *rs274.Event) {
	if !f.at.Enters || f.entered {
		return
	}
	f.entered = true
	other, table := f.placed()
	f.missed = !e.To.Has(other | table)
	if other != 0 && !e.To.Has(other) {
		f.add(f.letter, script.KindAxis, "goes in before the other slide is placed", fmt.Sprintf("G0 %c0 before the first pass", f.otherLetter()))
	}
	if table != 0 && !e.To.Has(table) {
		f.add(f.letter, script.KindAxis, "goes in before the table is placed", fmt.Sprintf("G0 B%d before the first pass", f.angle()))
	}
}

func (f *Follower) otherLetter() byte {
	if f.letter == 'Z' {
		return 'W'
	}
	return 'Z'
}

// placedHome finds a return of what is placed: its own zero is no place of this work.
func (f *Follower) placedHome(axes rs274.Axes) bool {
	other, table := f.placed()
	if axes&(other|table) == 0 {
		return false
	}
	f.add('G', script.KindHome, "the other slide or the table goes home", "neither moves once it is placed")
	return true
}

// angle is where the table is to stand: as the machine file says, and half a turn further
// for bores from the far face.
func (f *Follower) angle() int {
	if f.far {
		return (f.c.TableAngle + 180) % 360
	}
	return f.c.TableAngle
}
