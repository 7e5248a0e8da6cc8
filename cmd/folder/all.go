package folder

import (
	"fmt"
	"io"
	"runtime"
	"time"

	"borewright/process/cores"
	"borewright/process/source"
)

// Answer is what came of one job.
type Answer struct {
	Says string
	Code int // 0: done, 1: the answer is no, 2: it does not read or cannot be written
}

// All does something with every job on all cores, prints a line for each in their order, and
// gives the worst code. No more jobs are in hand than there are cores. progress is a terminal
// that is told how far it is; nil: nobody is.
func All(jobs []Job, out, progress io.Writer, do func(j *Job) Answer) (worst int, err error) {
	lines := make(chan struct {
		at int
		Answer
	})
	go func() {
		cores.Each(len(jobs), runtime.GOMAXPROCS(0), func(i int) {
			a := Answer{jobs[i].Problem, 2}
			if jobs[i].State != NotRead {
				a = do(&jobs[i])
			}
			lines <- struct {
				at int
				Answer
			}{i, a}
		})
		close(lines)
	}()
	bar := &counter{w: progress, of: len(jobs)}
	early := map[int]Answer{} // answers that came before that of a job above
	printed := 0
	for l := range lines {
		early[l.at] = l.Answer
		worst = max(worst, l.Code)
		bar.one()
		for a, ok := early[printed]; ok && err == nil; a, ok = early[printed] {
			bar.clear()
			_, err = fmt.Fprintln(out, line(&jobs[printed], a))
			delete(early, printed)
			printed++
		}
	}
	bar.clear()
	return worst, err
}

// line is what is printed of one job.
func line(j *Job, a Answer) string {
	name := j.Number + " " + j.Revision
	if j.Number == "" {
		name = j.File
	}
	return source.Clip(name, 24) + ": " + a.Says
}

// counter says how far it is, ten times a second at most.
type counter struct {
	w        io.Writer
	n, of    int
	shown    bool
	lastTold time.Time
}

func (c *counter) one() {
	c.n++
	if c.w == nil || time.Since(c.lastTold) < 100*time.Millisecond {
		return
	}
	const long = 30
	done := long * c.n / max(1, c.of)
	fmt.Fprintf(c.w, "\r%s%s %d of %d", bars[:done], dots[:long-done], c.n, c.of)
	c.shown, c.lastTold = true, time.Now()
}

const (
	bars = "=============================="
	dots = ".............................."
)

// clear takes the line away, so that what is printed does not run into it.
func (c *counter) clear() {
	if c.shown {
		fmt.Fprint(c.w, "\r\x1b[K")
		c.shown = false
	}
}
