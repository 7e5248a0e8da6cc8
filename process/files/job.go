// Package files reads what a person writes: the job file, the machines,
// materials, cutters and bars that it names or that are built in (catalog), the
// list of a shop's bars, the results file; with every mistake in them at its
// line. It also writes an entry of a results file and what was learned into a
// machine file, and says what the keys mean (Explain).
//
// Job is the door. It reads bytes, never files: the caller hands it a way to open
// the files that a job names. Job goes its four steps in one order; the checks of
// the last stand in check_*.go, by part of the job. They look at several figures
// at once: what one figure may be stands in its description in process.
package files

import (
	"math"

	"borewright/process"
	"borewright/process/bearings"
	"borewright/process/faces"
	"borewright/process/field/keys"
	"borewright/process/line"
	"borewright/process/qty"
	"borewright/process/source"
)

// Job reads a process description, fills in what it leaves out and checks it.
// The name is for messages. open gives the bytes of a file that the job names
// (a machine or material of the user's own), by the path as written; nil where
// there are none to be had. The error, if any, is of type source.Errors and holds
// every mistake of the job and of the files it names.
//
// Four steps, in this order: read by the description of the keys; find what the
// keys name; fill in what was left out; check what looks at several figures.
func Job(name string, data []byte, open func(path string) ([]byte, error)) (*process.Job, error) {
	j := &process.Job{}
	r, err := keys.Read(name, "job file", data, j)
	if err != nil {
		return nil, err
	}
	j.File, j.Units, j.Places = r.File, r.Units, r.Places()
	c := &checker{r, j}
	c.find(&library{r: r, open: open, read: map[string]any{},
		bars:    func(name string, data []byte) (*Shop, error) { return Bars(name, data, open) },
		cutters: func(name string, data []byte) (*Shop, error) { return Cutters(name, data, open) },
	})
	c.named()
	c.fill()
	if r.Known { // a job whose unit is not known cannot be judged
		c.check()
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return j, nil
}

// find puts in what the keys name: files, what is built in, stations.
func (c *checker) find(lib *library) {
	for i := range c.j.Bores {
		c.j.Bores[i].Station = -1
	}
	for i := range c.j.Sweeps {
		c.j.Sweeps[i].Station = -1
	}
	lib.find(c.Links(), func(l keys.Link) int { return c.station(l.Path, l.Text) })
	if lib.shop != nil && !c.Given("cutters") {
		c.j.Drawer = lib.shop.Cutters
	}
	shareMaterial(&c.j.Bar)
	if m := c.j.Machine; m != nil && m.Control != nil && m.Control.AsJob {
		programIn(m.Control, c.j.Units)
	}
}

// fill puts in what was left out.
func (c *checker) fill() {
	for i := range c.j.Stations {
		s := &c.j.Stations[i]
		if w, ok := s.WallRound(); ok && c.Has(source.El("station", i)+".diameter") {
			s.Wall, s.WallMost = qty.FromMM(w.Thin), qty.FromMM(w.Thick)
		}
		if s.WallMost == 0 {
			s.WallMost = s.Wall
		}
	}
	faces.Fill(c.Reader, c.j)
	for i := range c.j.Bores {
		b := &c.j.Bores[i]
		b.Finish = c.finish(source.El("bore", i)+".finish", b.Finish)
		if b.Roundness == 0 {
			b.Roundness = b.Finish.Tolerance() / 2
		}
	}
	line.Fill(c.j, c.Reader)
	bearings.Fill(c.j)
	c.fillTools()
	c.fillSleeve()
	for i := range c.j.Sweeps {
		c.fillSweep(&c.j.Sweeps[i], source.El("sweep", i))
	}
}

func (c *checker) fillBar() {
	b := &c.j.Bar
	if !c.Given("bar.cutter_at") {
		b.CutterAt = b.Stickout()
	}
	if o := b.Outboard; o != nil && o.Station == "" && o.PlaceError != 0 { // of a bush in the work alone
		own := *o // another job may share it
		own.PlaceError, b.Outboard = 0, &own
	}
	if b.FeedBy == process.QuillFeed && b.Standoff == 0 && !c.Badly("bar.standoff") {
		b.Standoff = c.standoff()
	}
}

// standoff chooses how far the nose stands from the face: the quill is flush
// when the tip stands clear of the first bore to cut. A program, which has the
// quill alone to bring the tip out, needs more.
func (c *checker) standoff() qty.Length {
	if m := c.j.Machine; m != nil && m.Control != nil {
		return max(c.j.LeastStandoff(), c.j.SetStandoff())
	}
	first := qty.Length(math.MaxInt64)
	for _, b := range c.j.Bores {
		if b.Station >= 0 {
			first = min(first, c.j.Stations[b.Station].From)
		}
	}
	if first == math.MaxInt64 {
		return c.j.LeastStandoff()
	}
	return max(c.j.LeastStandoff(), c.j.Bar.CutterAt-(first-c.j.Round(6, 0.25)))
}

func (c *checker) fillCutter() {
	k := &c.j.Cutter
	if m := k.Material; m != nil {
		if !c.Given("cutter.rake") {
			k.Rake = m.Rake
		}
		if !c.Given("cutter.edge_radius") {
			k.EdgeRadius = m.Edge
		}
	}
	least, most := c.j.Bar.UsualSizes()
	if !c.Given("cutter.least") {
		k.Least = least
	}
	if !c.Given("cutter.most") {
		k.Most = most
	}
	if at := c.j.Bar.StepAt(c.j.Bar.CutterAt); !c.Given("cutter.bar") && at >= 0 {
		k.Bar = c.j.Bar.Steps[at].Diameter
	}
}

func (c *checker) fillSweep(s *process.Sweep, at string) {
	if s.Station < 0 {
		return
	}
	st := faces.In(c.j, *s)
	if s.Face && !c.Given(at+".depth") {
		s.Depth = st.From
	}
	if !s.Face && !c.Given(at+".diameter") {
		s.Diameter = st.Diameter
	}
}

// check judges the job as a whole. Each check works from values that were read
// and found good, so that one mistake is told once.
func (c *checker) check() {
	c.checkStations()
	for i := range c.j.Bores {
		c.checkBore(i)
	}
	line.Check(c.j, c.Reader, c.station)
	c.checkSleeve()
	c.checkTools()
	c.checkSweeps()
	c.checkLineUp()
	if m := c.j.Machine; m != nil && c.j.Limits.SpeedMost > 0 && float64(c.j.Limits.SpeedMost) < m.Speeds.Least {
		c.Badf("limits.speed_most", "allow at least that", "%s rev/min is slower than the slowest speed of the machine, %s", keys.PlainNumber(float64(c.j.Limits.SpeedMost)), keys.PlainNumber(m.Speeds.Least))
	}
}
