package process

import "borewright/process/qty"

// WornNear are the readings of the worn bore between two depths, or those of the depth
// nearest to them where none lies between.
func (b *Bore) WornNear(from, to qty.Length) []Reading {
	off := func(r Reading) qty.Length { return max(0, from-r.Depth, r.Depth-to) }
	var out []Reading
	for _, r := range b.Wear {
		switch {
		case len(out) == 0 || off(r) == off(out[0]):
			out = append(out, r)
		case off(r) < off(out[0]):
			out = append(out[:0], r)
		}
	}
	return out
}
