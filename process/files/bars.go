package files

import (
	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/source"
)

// barList is a list of bars as a file has it.
type barList struct{ bars []process.ShopBar }

// Describe says what the keys of a list of bars are.
func (l *barList) Describe(d *field.Desc) {
	d.Units(nil, "units").Need().Example(`"in"|"mm"`).Says("what bare lengths in this file are in")
	field.List(d, &l.bars, "bar", 1, 200).Need().Example(`[ { name = "no. 4", steps = [ { diameter = 2.25, length = 17.5 } ] } ]`).
		Says("a bar that the shop owns, one entry each")
}

// Bars reads a list of bars. open is as for Load. The error, if any, is of
// type Errors.
func Bars(name string, data []byte, open func(path string) ([]byte, error)) ([]process.ShopBar, error) {
	var list barList
	r, err := keys.Read(name, "list of bars", data, &list)
	if err != nil {
		return nil, err
	}
	lib := &library{r: r, open: open, read: map[string]any{}}
	lib.find(r.Links(), nil)
	for i := range list.bars {
		b, at := &list.bars[i], source.El("bar", i)
		shareMaterial(&b.Bar)
		if !r.Given(at + ".cutter_at") {
			b.CutterAt = b.Stickout()
		}
		usualCutter(r, at, b)
		checkShopBar(r, at, *b, list.bars[:i])
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return list.bars, nil
}

// usualCutter fills in what the cutter can be set to where the list leaves it
// open, as for the job's own.
func usualCutter(r *keys.Reader, at string, b *process.ShopBar) {
	least, most := usualSizes(b.Bar)
	if !r.Given(at + ".least") {
		b.Least = least
	}
	if !r.Given(at + ".most") {
		b.Most = most
	}
}

func checkShopBar(r *keys.Reader, at string, b process.ShopBar, before []process.ShopBar) {
	for k, o := range before {
		if b.Name != "" && o.Name == b.Name {
			r.Badf(at+".name", "give each bar its own name", "%q is already the name of bar %d", b.Name, k+1)
		}
	}
	for i, s := range b.Steps {
		if step := source.El(at+".steps", i); r.Has(step+".diameter", step+".hole") && s.Hole >= s.Diameter {
			r.Badf(step+".hole", "the hole must be smaller than the step", "%s in a step of %s", r.Dia(s.Hole), r.Dia(s.Diameter))
		}
	}
	if r.Given(at+".cutter_at") && b.CutterAt > b.Stickout() && b.Stickout() > 0 {
		r.Badf(at+".cutter_at", "it counts from the spindle nose, and cannot be more than all steps together",
			"%s is beyond the end of the bar, %s", r.Len(b.CutterAt), r.Len(b.Stickout()))
	}
	if b.Least > 0 && b.Most > 0 && b.Least >= b.Most {
		r.Badf(at, "the least is below the most", "can be set from %s to %s only", r.Dia(b.Least), r.Dia(b.Most))
	}
}

// shareMaterial gives the bar's material to the steps that do not name their
// own.
func shareMaterial(b *process.Bar) {
	for i := range b.Steps {
		if s := &b.Steps[i]; s.Material == (process.BarMaterial{}) {
			s.Material = b.Material
		}
	}
}
