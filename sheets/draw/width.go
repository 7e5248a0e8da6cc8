package draw

// advance is how wide each printing ASCII character is, in thousandths of the
// size of the type: DejaVu Sans Condensed, read from the font's own table.
// Other sans types that a browser falls back on are within a few hundredths.
var advance = [...]int{
	286, 360, 414, 754, 572, 855, 702, 247, 351, 351, 450, 754, 286, 325, 286, 303, // space to /
	572, 572, 572, 572, 572, 572, 572, 572, 572, 572, 303, 303, 754, 754, 754, 478, // 0 to ?
	900, 615, 617, 628, 693, 568, 518, 697, 677, 265, 265, 590, 501, 776, 673, 708, // @ to O
	542, 708, 625, 571, 549, 659, 615, 890, 616, 549, 616, 351, 303, 351, 754, 450, // P to _
	450, 551, 571, 495, 571, 554, 316, 571, 570, 250, 250, 521, 250, 876, 570, 550, // ` to o
	571, 571, 370, 469, 353, 570, 532, 736, 532, 532, 472, 572, 303, 572, 754, // p to ~
}

// capital is the height of capitals over the size of the type.
const capital = 0.729

// Width is how wide a text of the given height of capitals is, mm.
func Width(s string, height float64) float64 {
	n := 0
	for _, r := range s {
		switch {
		case r >= ' ' && r <= '~':
			n += advance[r-' ']
		case r == '°' || r == '·':
			n += 450
		default:
			n += 720
		}
	}
	return float64(n) / 1000 * height / capital
}

// Short cuts a text that is wider than w mm and marks the cut.
func Short(s string, height, w float64) string {
	if Width(s, height) <= w {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && Width(string(r)+"...", height) > w {
		r = r[:len(r)-1]
	}
	return string(r) + "..."
}
