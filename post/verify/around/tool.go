package around

import (
	"fmt"

	"borewright/post/rs274"
	"borewright/post/verify/script"
)

// wantTool is the tool that is to be called; 0: none. A bar in an outboard support is put
// in by hand.
func (f *Follower) wantTool() int {
	if f.job.Bar.Outboard != nil {
		return 0
	}
	return f.c.Tool
}

// call takes M6.
func (f *Follower) call(e *rs274.Event) {
	if f.c.Tool == 0 {
		return // said by the words
	}
	want := fmt.Sprintf("T%d M6 once, before the first stop and the first move", f.c.Tool)
	switch homes := f.homes(); {
	case f.wantTool() == 0:
		f.add('M', script.KindTool, "a tool change with the bar in an outboard support", "no tool change: the bar is put in by hand")
	case f.at.Turning:
		f.add('M', script.KindTool, "a tool change with the spindle turning", "M5 in a block before it")
	case f.called:
		f.add('M', script.KindTool, "a second tool change", want)
	case f.moved || f.at.Stopped:
		f.add('M', script.KindTool, "a tool change after the first stop or the first move", want)
	case len(f.homed) < len(homes):
		f.add('M', script.KindTool, "a tool change before "+inTurn(homes[len(f.homed):])+" has gone home", want+", and after the way home")
	case e.Code != f.c.Tool && e.Code == 0:
		f.add('M', script.KindTool, "M6 without the number of the tool", want)
	}
	f.called = true
}

// wantLength is the length offset that is to be in force while anything moves along the
// bore; 0: none. G43 acts on Z (from memory of NISTIR 6556): where W feeds, no number of
// the program hangs on it.
func (f *Follower) wantLength() int {
	if f.letter != 'Z' {
		return 0
	}
	return f.c.LengthOffset
}

// change takes a change of the length offset.
func (f *Follower) change(e *rs274.Event) {
	f.offset = e.Code
	if f.at.Inside {
		f.add('G', script.KindTool, "the length offset changes with the tip at "+f.at.Tip, "G43 and G49 in front of the face")
	}
}

// length holds a move against the length offset: once, until it changes.
func (f *Follower) length(e *rs274.Event) {
	want := f.wantLength()
	if want == 0 || e.Length == want || e.From.Moved(e.To)&f.axis == 0 || f.said == e.Length+1 {
		return
	}
	f.said = e.Length + 1
	is := "without its length offset"
	if e.Length != 0 {
		is = fmt.Sprintf("by the length offset H%d", e.Length)
	}
	f.add(f.letter, script.KindTool, "moves along the bore "+is, fmt.Sprintf("G43 H%d in a block before it", want))
}
