package process

import (
	"fmt"

	"borewright/process/qty"
)

// LineUp is what the work is lined up with and how true it was made: what a
// line through dial sweeps rests on. Angles in mrad; every ± covers 95 %.
type LineUp struct {
	Dial     qty.Length // graduation of the dial that sweeps
	Repeats  qty.Length // how well it repeats, ±
	Coaxial  qty.Length // how far one bore may stand from the line of all, ±
	Square   float64    // how far a swept face may lean from square to the bores, ±
	Parallel float64    // how far the line may lean when nothing was swept that shows it, ±
	Table    *Rotary    // nil: not stated
	Packs    *Packs     // nil: not stated
}

// Rotary is the rotary table that the work stands on.
type Rotary struct {
	Centre qty.Length // depth of its centre, from the face
	Stop   qty.Length // from its centre to where its angle is set
}

// Packs are the depths of the two packings that the work rests on.
type Packs struct{ Near, Far qty.Length }

func (c *checker) lineUp() {
	const at = "lineup."
	l := &c.j.LineUp
	*l = LineUp{
		Dial: c.length(at + "dial"), Repeats: c.length(at + "repeats"), Coaxial: c.length(at + "coaxial"),
		Square: c.num(at + "square"), Parallel: c.num(at + "parallel"),
	}
	if c.has(at+"table_centre", at+"table_stop") {
		l.Table = &Rotary{Centre: c.length(at + "table_centre"), Stop: c.length(at + "table_stop")}
	}
	if p := list[qty.Length](c.reader, at+"packs"); len(p) == 2 {
		l.Packs = &Packs{Near: p[0], Far: p[1]}
	}
}

// checkLineUp judges the figures that only make sense together.
func (c *checker) checkLineUp() {
	const at = "lineup."
	for _, k := range [][2]string{{"table_centre", "table_stop"}, {"table_stop", "table_centre"}} {
		if c.given[at+k[0]] && !c.given[at+k[1]] {
			c.bad(at+k[0], "stands without "+k[1], "a turn of the table needs both: its centre says what moves, its stop by how much")
		}
	}
	if p := c.j.LineUp.Packs; p != nil && p.Far <= p.Near {
		c.badf(at+"packs", "write the one nearer to the spindle first; depths count from the face", "the far packing, at %s, does not lie behind the near one, at %s", c.len(p.Far), c.len(p.Near))
	}
}

// ShopBar is one bar that the shop owns.
type ShopBar struct {
	Bar
	Least, Most qty.Diameter // what its cutter can be set to
}

// shopKeys is the table of keys of a list of bars. Its rows are those of the
// job's own bar and cutter.
func shopKeys() []field {
	rows := []field{
		{path: "units", kind: aChoice, need: true, choices: []string{"in", "mm"}, example: `"in"|"mm"`, text: "what bare lengths in this file are in"},
		{path: "bar", kind: aTable, list: many(1, 200), need: true, example: `[ { name = "no. 4", steps = [ { diameter = 2.25, length = 17.5 } ] } ]`, text: "a bar that the shop owns, one entry each"},
	}
	for _, f := range jobKeys() {
		switch f.path {
		case "bar.name":
			f.need = true
		case "bar.steps", "bar.steps.diameter", "bar.steps.length", "bar.steps.hole", "bar.steps.material", "bar.material", "bar.cutter_at":
		case "cutter.least", "cutter.most":
			f.path = "bar" + f.path[len("cutter"):]
		default:
			continue
		}
		rows = append(rows, f)
	}
	return rows
}

// LoadBars reads a list of bars. open is as for Load. The error, if any, is of
// type Errors.
func LoadBars(name string, data []byte, open func(path string) ([]byte, error)) ([]ShopBar, error) {
	r, p := read(name, data, newSchema("list of bars", shopKeys()))
	if r == nil {
		return nil, p.err()
	}
	lib := &library{r: r, open: open, read: map[string]any{}}
	var all []ShopBar
	for i := range r.counts["bar"] {
		at := el("bar", i)
		b := ShopBar{Least: r.diameter(at + ".least"), Most: r.diameter(at + ".most")}
		b.Name = r.text(at + ".name")
		b.Steps = r.steps(lib, at)
		if b.CutterAt = r.length(at + ".cutter_at"); !r.given[at+".cutter_at"] {
			b.CutterAt = b.Stickout()
		}
		b.usualCutter(r, at)
		r.checkShopBar(at, b, all)
		all = append(all, b)
	}
	if err := r.err(); err != nil {
		return nil, err
	}
	return all, nil
}

// usualCutter fills in what the cutter can be set to where the list leaves it
// open, as for the job's own.
func (b *ShopBar) usualCutter(r *reader, at string) {
	least, most := b.usualSizes()
	if !r.given[at+".least"] {
		b.Least = least
	}
	if !r.given[at+".most"] {
		b.Most = most
	}
}

func (r *reader) checkShopBar(at string, b ShopBar, before []ShopBar) {
	for k, o := range before {
		if b.Name != "" && o.Name == b.Name {
			r.badf(at+".name", "give each bar its own name", "%q is already the name of bar %d", b.Name, k+1)
		}
	}
	for i, s := range b.Steps {
		if step := el(at+".steps", i); r.has(step+".diameter", step+".hole") && s.Hole >= s.Diameter {
			r.badf(step+".hole", "the hole must be smaller than the step", "%s in a step of %s", r.dia(s.Hole), r.dia(s.Diameter))
		}
	}
	if r.given[at+".cutter_at"] && b.CutterAt > b.Stickout() && b.Stickout() > 0 {
		r.badf(at+".cutter_at", "it counts from the spindle nose, and cannot be more than all steps together",
			"%s is beyond the end of the bar, %s", r.len(b.CutterAt), r.len(b.Stickout()))
	}
	if b.Least > 0 && b.Most > 0 && b.Least >= b.Most {
		r.badf(at, "the least is below the most", "can be set from %s to %s only", r.dia(b.Least), r.dia(b.Most))
	}
}

// steps reads the steps of the bar whose keys stand under at.
func (r *reader) steps(lib *library, at string) []Step {
	var all []Step
	whole := resolve(lib, at+".material", "bars", "bar material", LoadBarMaterial)
	for i := range r.counts[at+".steps"] {
		el := el(at+".steps", i) + "."
		s := Step{Diameter: r.diameter(el + "diameter"), Length: r.length(el + "length"), Hole: r.diameter(el + "hole")}
		m := whole
		if r.given[el+"material"] {
			m = resolve(lib, el+"material", "bars", "bar material", LoadBarMaterial)
		}
		if m != nil {
			s.Material = *m
		}
		all = append(all, s)
	}
	return all
}

// shop reads the list of bars that the job names.
func (c *checker) shop(lib *library) {
	name := c.text("bars")
	if name == "" {
		return
	}
	if lib.open == nil {
		c.bad("bars", fmt.Sprintf("names the file %q, and no file can be opened here", show(name)), "leave it out")
		return
	}
	data, err := lib.open(name)
	if err != nil {
		c.bad("bars", fmt.Sprintf("the file %q cannot be read: %s", show(name), show(err.Error())), "give a path relative to the job file")
		return
	}
	bars, err := LoadBars(name, data, lib.open)
	if mistakes, ok := err.(Errors); ok {
		c.bad("bars", fmt.Sprintf("the file %q has mistakes", show(name)), "they are listed below with its name")
		c.found = append(c.found, mistakes...)
	}
	c.j.Shop = bars
}
