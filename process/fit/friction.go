package fit

// Friction is a range of friction between two metals in one state.
type Friction struct {
	Pair   string // "steel in grey iron"
	State  string // "pressed in, oiled"
	Band   Band   // –
	Source string
}

// Frictions are usual ranges for pressing in and for holding. All from memory:
// ranges of DIN 7190 as textbooks repeat them. Measure where it matters: the
// press gauge tells the true figure.
func Frictions() []Friction {
	const din = "DIN 7190 range, from memory"
	return []Friction{
		{"steel in steel", "pressed in, oiled", Band{0.06, 0.08}, din},
		{"steel in steel", "pressed in, dry", Band{0.10, 0.12}, din},
		{"steel in steel", "shrunk, oiled", Band{0.12, 0.14}, din},
		{"steel in steel", "shrunk, degreased", Band{0.18, 0.20}, din},
		{"steel or iron in grey iron", "pressed in", Band{0.06, 0.12}, din},
		{"bronze in iron or steel", "pressed in, oiled", Band{0.05, 0.07}, din},
	}
}
