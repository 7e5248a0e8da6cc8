package files

import (
	"cmp"

	"borewright/process"
	"borewright/process/field"
	"borewright/process/field/keys"
	"borewright/process/qty"
	"borewright/process/source"
)

// Shop is what a list of bars and cutters holds.
type Shop struct {
	Units   qty.Unit // what the list is written in
	Bars    []process.ShopBar
	Cutters []process.ShopCutter
}

// Describe says what the keys of such a list are.
func (l *Shop) Describe(d *field.Desc) {
	d.Units(&l.Units, "units").Need().Example(`"in"|"mm"`).Says("what bare lengths in this file are in")
	field.List(d, &l.Bars, "bar", 0, 200).Example(`[ { name = "no. 4", steps = [ { diameter = 2.25, length = 17.5 } ] } ]`).
		Says("a bar that the shop owns, one entry each")
	field.List(d, &l.Cutters, "cutter", 0, 200).Example(`[ { name = "bit 7", material = "carbide", nose_radius = 0.016 } ]|[ { name = "bit 7", material = "carbide", nose_radius = 0.4 } ]`).
		Says("a cutter that the shop owns, one entry each")
}

// Bars reads a list with bars. open is as for Job. The error, if any, is of
// type source.Errors.
func Bars(name string, data []byte, open func(path string) ([]byte, error)) (*Shop, error) {
	return shopOf(name, data, "bar", open)
}

// Cutters reads a list with cutters, as Bars.
func Cutters(name string, data []byte, open func(path string) ([]byte, error)) (*Shop, error) {
	return shopOf(name, data, "cutter", open)
}

// shopOf reads a list which has at least one entry under a key.
func shopOf(name string, data []byte, needs string, open func(path string) ([]byte, error)) (*Shop, error) {
	list := &Shop{}
	r, err := keys.Read(name, "list of bars and cutters", data, list)
	if err != nil {
		return nil, err
	}
	if !r.Given(needs) {
		r.Missing(needs)
	}
	lib := &library{r: r, open: open, read: map[string]any{}}
	lib.find(r.Links(), nil)
	for i := range list.Bars {
		b, at := &list.Bars[i], source.El("bar", i)
		shareMaterial(&b.Bar)
		if !r.Given(at + ".cutter_at") {
			b.CutterAt = b.Stickout()
		}
		usualCutter(r, at, b)
		checkShopBar(r, at, *b, list.Bars[:i])
	}
	for i := range list.Cutters {
		k, at := &list.Cutters[i], source.El("cutter", i)
		if m := k.Material; m != nil {
			if !r.Given(at + ".rake") {
				k.Rake = m.Rake
			}
			k.EdgeRadius = cmp.Or(k.EdgeRadius, m.Edge)
		}
		checkShopCutter(r, at, *k, list.Cutters[:i])
	}
	if err := r.Err(); err != nil {
		return nil, err
	}
	return list, nil
}

func checkShopCutter(r *keys.Reader, at string, k process.ShopCutter, before []process.ShopCutter) {
	for i, o := range before {
		if k.Name != "" && o.Name == k.Name {
			r.Badf(at+".name", "give each cutter its own name", "%q is already the name of cutter %d", k.Name, i+1)
		}
	}
	if r.Has(at+".lead", at+".trail") {
		checkPoint(r, at, k.Cutter)
	}
	if r.Has(at+".speed.rough") != r.Has(at+".speed.finish") && !r.Badly(at+".speed.rough") && !r.Badly(at+".speed.finish") {
		r.Bad(at+".speed", "gives only one of rough and finish", "give both")
	}
	if k.Least > 0 && k.Most > 0 && k.Least >= k.Most {
		r.Badf(at, "the least is below the most", "can be set from %s to %s only", r.Dia(k.Least), r.Dia(k.Most))
	}
}

// checkPoint sees that lead and trail leave a point.
func checkPoint(r *keys.Reader, at string, k process.Cutter) {
	if k.Lead+k.Trail > 150 {
		r.Badf(at+".trail", "lead and trail together are at most 150°", "lead %s° and trail %s° leave a point of %s°", keys.PlainNumber(k.Lead), keys.PlainNumber(k.Trail), keys.PlainNumber(180-k.Lead-k.Trail))
	}
}

// usualCutter fills in what the cutter can be set to where the list leaves it
// open, as for the job's own.
func usualCutter(r *keys.Reader, at string, b *process.ShopBar) {
	least, most := b.Bar.UsualSizes()
	if !r.Given(at + ".least") {
		b.Least = least
	}
	if !r.Given(at + ".most") {
		b.Most, b.Usual = most, true
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
	if b.Stands[1] > 0 && b.Stickout() > 0 && b.LeastLeft() <= 0 {
		r.Badf(at+".stickout", tooFarIn, "of the slender step nothing would stand out at %s", r.Len(b.Stands[0]))
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
