package fit

// Rubbing is which metals rub when a sleeve is pressed in.
type Rubbing int

// The pairs.
const (
	SteelInSteel  Rubbing = iota
	SteelInIron           // steel or iron in grey iron
	BronzeInMetal         // bronze in iron or steel
)

// PressedIn is the usual range of friction of a pair while the sleeve is pressed
// in, oiled, and when it holds; –. From memory: ranges of DIN 7190 as textbooks
// repeat them. Measure where it matters: the press gauge tells the true figure.
func (p Rubbing) PressedIn() Band {
	return [...]Band{SteelInSteel: {0.06, 0.08}, SteelInIron: {0.06, 0.12}, BronzeInMetal: {0.05, 0.07}}[p]
}
