package post

import (
	"bytes"
	"fmt"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/storage"
	"borewright/sheets/words"
)

// job is one program on its way.
type job struct {
	p     *plan.Plan
	index [2]int // indices of bore and visit
	bore  *plan.Bore
	visit *plan.Visit
	bores []through // that are cut, the first one's visit is visit
	words words.Words
	c     *process.Control
	d     rs274.Dialect

	axis   byte       // that feeds
	aside  byte       // X or Y: shifted in the retract
	shift  qty.Length // signed; 0: the cutter feeds out
	off    qty.Length // signed: of the bar, as it goes in and comes out; 0: on the axis
	wet    bool       // cut with coolant
	other  byte       // slide along the bore that does not feed and is placed; 0: none
	table  byte       // letter of the table that is turned; 0: none
	tool   int        // called at the start; 0: none
	called bool       // the tool stands: passes follow
	delete bool       // blocks begin with /
	length int        // H of the length offset; 0: none
	out    bytes.Buffer
	number int // of the last numbered block
	mark   int // N word of the next block, a restart mark; 0: none
	oword  int // program number; 0: none
	home   qty.Length
	hold   qty.Length // in front of the face, where the bore is measured; no more than home: there
	level  qty.Length // where a bar that goes in off the axis comes back to it; depths, as they are written
	clear  qty.Length
	end    qty.Length
	wrong  *Reason // the first thing that cannot be written
}

// fail notes what cannot be written. The first one stays.
func (j *job) fail(k Kind, err error) {
	if err != nil && j.wrong == nil {
		j.wrong = &Reason{k, err.Error()}
	}
}

// line prints a block as it is.
func (j *job) line(b *rs274.Block) {
	if j.wrong == nil {
		j.fail(Unread, rs274.Write(&j.out, b, j.d))
	}
}

// block prints words, with a block number where the control wants one.
func (j *job) block(words ...rs274.Word) {
	j.line(&rs274.Block{Delete: j.delete, Words: j.numbered(words)})
}

// numbered puts the next block number before the words. After 99999 the count
// starts again, which every control takes.
func (j *job) numbered(words []rs274.Word) []rs274.Word {
	step := max(j.c.BlockStep, 1)
	switch {
	case j.mark > 0:
		j.number, j.mark = j.mark, 0
	case !j.c.BlockNumbers:
		return words
	default:
		if j.number += step; j.number > numberMost {
			j.number = step
		}
	}
	return append([]rs274.Word{rs274.Whole('N', j.number)}, words...)
}

// numberMost is the highest N word (NISTIR 6556, 3.3.1).
const numberMost = 99999

// restart makes the next block the restart mark of a pass.
func (j *job) restart(pass int) {
	if j.c.RestartStep <= 0 {
		return
	}
	switch j.mark = pass * j.c.RestartStep; {
	case j.mark > numberMost:
		j.fail(NoWord, fmt.Errorf("restart_step = %d in the machine file makes the mark of pass %d N%d, and an N word has 5 digits at most; state restart_step = %d or less", j.c.RestartStep, pass, j.mark, numberMost/pass))
	case j.mark <= j.number:
		j.fail(NoWord, fmt.Errorf("restart_step = %d in the machine file: the blocks before pass %d go to N%d, past its mark, N%d; state a larger restart_step, or a smaller block_step", j.c.RestartStep, pass, j.number, j.mark))
	}
}

// codes prints codes on as few lines as the control's longest one allows.
func (j *job) codes(codes ...int) {
	most := j.d.LineMost - 7 // N and five digits, and a space
	var words []rs274.Word
	for used := 0; len(codes) > 0; codes = codes[1:] {
		w := rs274.Whole('G', codes[0])
		if used += len(w.Text) + 2; used > most && len(words) > 0 {
			j.block(words...)
			words, used = nil, len(w.Text)+2
		}
		words = append(words, w)
	}
	j.block(words...)
}

func g(n int) rs274.Word { return rs274.Whole('G', n) }

func m(n int) rs274.Word { return rs274.Whole('M', n) }

// at is the word of a position. A number that the control has no room for is
// the job's error.
func (j *job) at(letter byte, l qty.Length) rs274.Word {
	w, err := j.d.Length(letter, l, j.c.Units)
	j.fail(NoWord, err)
	return w
}

// deep is the feed axis at a depth.
func (j *job) deep(depth qty.Length) rs274.Word { return j.at(j.axis, -depth) }

// say prints a comment, wrapped; nothing where the control takes none, or is to have none.
func (j *job) say(text string) {
	if !j.c.Comments || j.c.Remarks == storage.NoRemarks {
		return
	}
	text = clean(text)
	if j.d.Plain {
		text = plainText(text)
	}
	for _, l := range wrap(text, min(j.d.LineMost, 80)-2) {
		j.line(&rs274.Block{Comments: []rs274.Comment{{Text: l}}})
	}
}

func (j *job) sayf(format string, a ...any) { j.say(fmt.Sprintf(format, a...)) }
