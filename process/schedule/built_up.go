package schedule

import (
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/qty"
)

// leastOfCarbide is the cutting speed, m/min, below which steel builds up on an edge of cemented carbide as a rule.
// Common practice, no source; high-speed steel has its whole range there.
const leastOfCarbide = 40

// BuildsUp is the caution for passes so slow that metal builds up on an edge of carbide; nothing where none is. The metals are
// those of which it is known: steel and stainless steel (ISO 513, groups P and M).
func (v *Visit) BuildsUp(edge *process.CutterMaterial) fact.Fact {
	if edge.Class == "hss" || v.Material == nil || v.Material.Group != "P" && v.Material.Group != "M" {
		return fact.Fact{}
	}
	var slow []int
	least := qty.CuttingSpeed(leastOfCarbide)
	for _, p := range v.Passes {
		if at := p.Speed.At(p.Expected); at < leastOfCarbide {
			slow, least = append(slow, p.N), min(least, at)
		}
	}
	if len(slow) == 0 {
		return fact.Fact{}
	}
	return fact.New(BuildsUp, fact.List(Runs(slow)...), fact.Figure(least), fact.Name(edge.Name))
}
