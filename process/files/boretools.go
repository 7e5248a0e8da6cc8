package files

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"borewright/process"
	"borewright/process/bearings"
	"borewright/process/faces"
	"borewright/process/field/keys"
	"borewright/process/named"
	"borewright/process/qty"
	"borewright/process/source"
)

// fillBores finds the tools that bores name. What of the job's own bar and cutter the job states
// does not hold for them, but for how the bar is fed and held.
func (c *checker) fillBores() { named.Find(c.j, c.toolsNamed) }

// Retool gives the bores of a job that was changed since it was read the tools that they name.
func Retool(j *process.Job) {
	(&checker{keys.Stated(j.File, j.Units, j.Places, nil, nil), j}).fillBores()
}

// toolsNamed are the tools of the lists by their names; nil where the job's own are meant, or
// where there are none, which is told.
func (c *checker) toolsNamed(n named.Pair) *process.Tools {
	bar, cutter := c.listedTools(n)
	if n.Bar != "" && bar == nil || n.Cutter != "" && cutter == nil {
		return nil
	}
	if n.Bar == "" && n.Cutter == "" { // the job's own, in a bush
		b, l, o := c.j.Bar, c.j.Limits, n.Guide.Support
		b.Outboard = &o
		return &process.Tools{Bar: b, Cutter: c.j.Cutter, SettingError: l.SettingError, SettingUsual: l.SettingUsual, Overhang: l.Overhang, Key: n.GuideKey}
	}
	j := named.Bared(c.j, n.Bar != "", n.Cutter != "")
	d := &checker{keys.Stated(j.File, j.Units, j.Places, nil, nil), j}
	d.take(bar, cutter)
	if n.Bar == "" { // as the job has it, clamped as it is
		j.Bar = c.j.Bar
	}
	if n.Guide != nil {
		o := n.Guide.Support
		j.Bar.Outboard = &o
	}
	d.fillOwn()
	if own := c.j.Bar; own.Listed != nil && n.Bar != "" && reflect.DeepEqual(j.Bar, *own.Listed) {
		j.Bar = own // clamped as it is
	}
	if reflect.DeepEqual(j.Bar, c.j.Bar) && reflect.DeepEqual(j.Cutter, c.j.Cutter) {
		return nil
	}
	key := n.BarKey
	if n.Bar == "" {
		key = n.CutterKey
	}
	return &process.Tools{Bar: j.Bar, Cutter: j.Cutter, SettingError: j.Limits.SettingError, SettingUsual: j.Limits.SettingUsual, Overhang: j.Limits.Overhang, Key: key}
}

// listedTools are the entries of the lists: those named, and those that the job's own bar and
// cutter were taken from, whose range holds in other company, too.
func (c *checker) listedTools(n named.Pair) (bar *process.ShopBar, cutter *process.ShopCutter) {
	name := func(b process.ShopBar) string { return b.Name }
	called := func(k process.ShopCutter) string { return k.Name }
	own := c.j.Bar
	if own.Listed != nil {
		own = *own.Listed
	}
	switch {
	case n.Bar == "":
		if at := slices.IndexFunc(c.j.Shop, func(b process.ShopBar) bool { return b.Name != "" && reflect.DeepEqual(b.Steps, own.Steps) }); at >= 0 {
			bar = &c.j.Shop[at]
		}
	case len(c.j.Shop) == 0 && c.Given("bars"): // whose mistakes are told
	case len(c.j.Shop) == 0:
		c.Bad(n.BarKey, "names a bar of a list, and the job names no list", "write bars = … at the top of the file, or leave it out")
	default:
		bar = byName(c, n.BarKey, "bar", n.Bar, c.j.Shop, name)
	}
	switch {
	case n.Cutter == "":
		if at := slices.IndexFunc(c.j.Drawer, func(k process.ShopCutter) bool { return k.Name != "" && k.Name == c.j.Cutter.Name }); at >= 0 {
			cutter = &c.j.Drawer[at]
		}
	case len(c.j.Drawer) == 0 && (c.Given("cutters") || c.Given("bars") && len(c.j.Shop) == 0):
	case len(c.j.Drawer) == 0:
		c.Bad(n.CutterKey, "names a cutter of a list, and the job names none that has cutters", "write cutters = … at the top of the file, or leave it out")
	default:
		cutter = byName(c, n.CutterKey, "cutter", n.Cutter, c.j.Drawer, called)
	}
	return bar, cutter
}

// checkBores judges the tools of the bores, each with the bore that it cuts.
func (c *checker) checkBores() {
	if c.j.Rough != (process.ToolsNamed{}) && !c.j.Apart() {
		c.Bad("rough", "nothing is roughed apart from its finish in this job", "leave rough out, or have several bores in the order rough_first")
	}
	astray := bearings.CheckGuides(c.Reader, c.j)
	for i, b := range c.j.Bores {
		if at := source.El("bore", i) + ".rough"; b.Rough != (process.ToolsNamed{}) && !c.j.RoughsApart(i) {
			c.Bad(at, "the bore is not roughed apart from its finish", "leave rough out; apart are several bores in the order rough_first, but for those with first = true")
		}
		if astray[i] {
			continue
		}
		c.checkFor(b.CutBy, i, 0)
		if b.RoughBy != b.CutBy {
			c.checkFor(b.RoughBy, i, c.j.Limits.RestStock)
		}
	}
}

// checkFor judges tools that cut one bore, by its index, to its size, less what is left for the
// finish: from the face that it is bored from.
func (c *checker) checkFor(t *process.Tools, bore int, less qty.Length) {
	if t == nil {
		return
	}
	seen := faces.Of(c.j, bore)
	b := seen.Bores[bore]
	j := named.Alone(seen.Using(t), b, less)
	j.Stations = bearings.Seated(seen, b)
	stated := []string{"bar.steps", "cutter.lead", "cutter.trail"}
	for i := range j.Bar.Steps {
		at := source.El("bar.steps", i)
		stated = append(stated, at+".diameter", at+".length")
	}
	if o := j.Bar.Outboard; o != nil && o.At > 0 {
		stated = append(stated, "bar.outboard.at", "bar.inboard.at")
	}
	d := &checker{keys.Stated(j.File, j.Units, j.Places, stated, nil), j}
	d.checkBar()
	d.checkCutter()
	for _, p := range d.Found {
		if p.Key == "bar.outboard" && b.Guide == nil { // whatever bar runs in it: said once, where it is written
			if !slices.ContainsFunc(c.Found, func(o source.Problem) bool { return o.Key == p.Key }) {
				c.Bad(p.Key, p.What, p.Allowed)
			}
			continue
		}
		if guide := source.El("bore", bore) + ".guide"; b.Guide != nil && strings.HasPrefix(p.Key, "bar.outboard") {
			c.Bad(guide, p.What, p.Allowed)
			continue
		} else if t.Key == guide { // the job's own bar and cutter are judged by themselves
			continue
		}
		c.Add(c.Place(t.Key), t.Key, fmt.Sprintf("%s with %s: %s", called(t.Bar.Name, t.Bar.Called()), called(t.Cutter.Name, t.Cutter.Called()), p.What), cmp.Or("name another", p.Allowed))
	}
}

// called is a bar or a cutter by its name in a list, or as what it is where it has none.
func called(name, otherwise string) string {
	if name == "" {
		return otherwise
	}
	return strconv.Quote(name)
}
