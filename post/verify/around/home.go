package around

import (
	"fmt"
	"strings"

	"borewright/post/rs274"
	"borewright/post/verify/script"
	"borewright/process"
)

// homes are the letters of the slides that are to go home, in order: at the start and at
// the end. A bar in an outboard support stays in it.
func (f *Follower) homes() (letters string) {
	if f.c.HomeWord == 0 || f.job.Bar.Outboard != nil {
		return ""
	}
	for _, a := range f.c.HomeAxes {
		switch a {
		case process.HomeFeed:
			letters += string(rune(f.letter))
		case process.HomeX:
			letters += "X"
		case process.HomeY:
			letters += "Y"
		}
	}
	return letters
}

// homesMost are the returns that are kept: more than any program has.
const homesMost = 9

func inTurn(letters string) string { return strings.Join(strings.Split(letters, ""), ", then ") }

// goHome takes a return. Where home is the program does not say: the proof takes it to be
// further out than any part of the bar is in the work.
func (f *Follower) goHome(e *rs274.Event) {
	var letters string
	for _, a := range []struct {
		letter string
		axis   rs274.Axes
	}{{string(rune(f.letter)), f.axis}, {"X", rs274.X}, {"Y", rs274.Y}} {
		if e.Axes&a.axis != 0 {
			letters += a.letter
		}
	}
	along := e.Axes&f.axis != 0
	switch {
	case f.placedHome(e.Axes):
	case letters == "": // another slide: said by the words
	case f.job.Bar.Outboard != nil:
		f.add('G', script.KindHome, "a slide goes home with the bar in an outboard support", "no return: it would draw the bar out of the support")
	case len(letters) > 1:
		f.add('G', script.KindAxis, "more than one slide goes home at once", inTurn(f.homes())+": the bar out of the work first")
	case f.at.Turning:
		f.add('G', script.KindSpindle, "goes home with the spindle turning", "M5 in a block before it")
	case along && f.at.Inside && !f.out.Has(f.at.Line, f.at.Line):
		f.add('G', script.KindRapid, "goes home from "+f.at.Tip, "out of the bore first, as the pass does")
	case !along && !strings.Contains(f.homed, string(rune(f.letter))):
		f.add('G', script.KindAxis, letters+" goes home before the bar is out of the work", inTurn(f.homes()))
	case !strings.HasPrefix(f.homes(), f.homed+letters):
		f.add('G', script.KindHome, letters+" goes home here", inTurn(f.homes())+", at the start and at the end")
	case e.Code == 53 && f.c.HomeWord == 53:
		if at, want := e.Center.Linear(letters[0]), f.c.HomeAt[len(f.homed)]; (at - want).Abs() > script.LeastInput(f.c)/2+1 {
			f.add(letters[0], script.KindHome, fmt.Sprintf("%s goes to the machine position %s", letters, f.c.Units.Say(at)), f.c.Units.Say(want))
		}
	}
	if len(f.homed) < homesMost {
		f.homed += letters
	}
}

// leaveHome is a move: the first of the program comes after the return.
func (f *Follower) leaveHome(e *rs274.Event) {
	if e.Code == 28 {
		return // on its way home
	}
	switch tool := f.wantTool(); {
	case !f.moved:
		f.atHome(0, "the first move")
		if tool != 0 && !f.called {
			f.add(0, script.KindTool, "the first move before the bar is called", fmt.Sprintf("T%d M6 at the start", tool))
		}
	case f.homed != "":
		f.add(0, script.KindHome, "goes on after "+inTurn(f.homed)+" has gone home", "home at the start and at the end alone")
	}
	f.moved, f.homed = true, ""
}

// atHome finds slides that have not gone home before what.
func (f *Follower) atHome(letter byte, what string) {
	if want := f.homes(); want != "" && len(f.homed) < len(want) {
		f.add(letter, script.KindHome, fmt.Sprintf("%s before %s has gone home", what, inTurn(strings.TrimPrefix(want, f.homed))), f.c.HomeWord.String()+" of "+inTurn(want))
	}
}
