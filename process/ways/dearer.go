package ways

import (
	"slices"

	"borewright/process/fact"
	"borewright/process/field"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/setup"
)

// Metal is the bar to make of one metal, and what it would give.
type Metal struct {
	ID      string // as bar.steps has it
	Instead string // of a bar that bores name; "": of the job's own
	Outcome
}

// Describe says what documents have of it.
func (m *Metal) Describe(d *field.Desc) {
	d.Name(&m.ID, "material")
	d.Name(&m.Instead, "in_place_of").OmitEmpty()
	d.Count(&m.Passes, "passes")
	d.Figure(&m.Minutes, qty.KindMinutes, "minutes").Decimals(2)
	d.Figure(&m.Chance, qty.KindShare, "chance").Decimals(4)
	d.Table(&m.Noisiest, "chatter")
}

// Voice is how its noisiest pass stands, in a word.
func (m Metal) Voice() fact.Kind { return m.Noisiest.Chatter() }

// dearer are the first bar to make that was found, and the same of dearer metals that give more: nothing where
// none was found or none does.
func (a *Asked) dearer(found []tried) []Metal {
	i := slices.IndexFunc(found, func(t tried) bool { return t.makes() && len(t.made) == 1 })
	if i < 0 {
		return nil
	}
	bar := found[i]
	if bar.Chance == 0 {
		bar.Outcome = a.Try(bar.job, Trialed)
	}
	instead := ""
	if n := bar.made[0].of(); n != nil {
		instead = n.name
	}
	out := []Metal{{bar.made[0].metal(), instead, bar.Outcome}}
	for _, c := range bar.dearer {
		if t := a.try(Trialed, bar.of, built, c); t.Feasible && more(t.Outcome, out[len(out)-1].Outcome) {
			out = append(out, Metal{c.metal(), instead, t.Outcome})
		}
	}
	if len(out) == 1 {
		return nil
	}
	return out
}

// metal is what a bar to make is of.
func (c change) metal() string {
	of := c.plain()
	i := slices.IndexFunc(metals, func(id string) bool { return of.Nth(3) == fact.Name(files.BarMaterialByID(id).Name) })
	if i < 0 {
		return ""
	}
	return metals[i]
}

// more is whether one outcome gives more than another: it is quieter, surer or quicker by more than a little.
func more(o, than Outcome) bool {
	x, y := o.Noisiest.Chatter(), than.Noisiest.Chatter()
	return x != y && setup.Louder(x, y) == y || o.Chance > than.Chance+0.005 || o.Minutes < 0.97*than.Minutes
}
