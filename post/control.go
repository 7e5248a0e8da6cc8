package post

import (
	"errors"
	"fmt"
	"math"

	"borewright/post/rs274"
	"borewright/process"
	"borewright/process/qty"
	"borewright/process/storage"
)

// lineLeast is the shortest line that holds the longest block that cannot be
// split: a block number, G1, a depth and a feed, of 12 digits and a point each.
const lineLeast = len("N99999 G1 Z-123456.123456 F123456.123456")

// dialect turns the properties of a control into the dialect that its programs
// are printed in, and says all that is wrong with them.
func dialect(c *process.Control) (rs274.Dialect, []string) {
	var bad []string
	wrong := func(format string, a ...any) { bad = append(bad, fmt.Sprintf(format, a...)) }
	d := rs274.Dialect{Whole: c.WholePlaces, Part: c.PartPlaces, Spaces: c.SpaceWords, LineMost: c.LineMost, Plain: c.PlainText}

	d.Zeros = map[process.Zeros]rs274.Zeros{process.LeadingZeros: rs274.NoLeading, process.TrailingZeros: rs274.NoTrailing, process.KeptZeros: rs274.AllZeros}[c.DropZeros]
	switch {
	case c.DecimalPoint:
		d.Numbers = rs274.PointMust
		if d.Part == 0 {
			d.Part = 3
			if c.Units == qty.Inches {
				d.Part = 4
			}
		}
	case c.DropZeros == process.LeadingZeros:
		d.Numbers = rs274.DropLeading
	case c.DropZeros == process.TrailingZeros:
		d.Numbers = rs274.DropTrailing
	default:
		d.Numbers = rs274.AllDigits
	}
	d.UnitsWords = map[process.UnitsWords]rs274.UnitsWords{process.G20G21: rs274.G20G21, process.G70G71: rs274.G70G71}[c.UnitsWord]
	d.DwellUnit = map[process.DwellIn]rs274.DwellUnit{process.DwellSeconds: rs274.Seconds, process.DwellMilliseconds: rs274.Milliseconds, process.DwellRevolutions: rs274.Revolutions}[c.Dwell]
	d.DwellWord = byte(c.DwellWord)
	d.OrientWord = byte(c.OrientWord)
	d.LineEnd = map[storage.LineEnd]rs274.LineEnd{storage.EndLF: rs274.EndLF, storage.EndCRLF: rs274.EndCRLF, storage.EndCR: rs274.EndCR}[c.LineEnd]
	if d.LineMost == 0 {
		d.LineMost = 80
	}
	if d.LineMost < lineLeast {
		wrong("longest line %d; blocks need at least %d characters", c.LineMost, lineLeast)
	}
	d.Percent = rs274.Refused
	if c.Percent {
		d.Percent = rs274.Required
	}
	for _, f := range []struct {
		has  bool
		what rs274.Features
	}{
		{c.Comments, rs274.Comments}, {c.BlockNumbers || c.RestartStep > 0, rs274.BlockNumbers}, {c.FeedPerRev, rs274.PerRev},
		{c.Cycles, rs274.Cycles}, {c.ReturnWords, rs274.ReturnWords}, {c.OrientedStop, rs274.Oriented}, {len(c.Gears) > 0, rs274.GearWords},
		{c.HomeWord != 0, rs274.Returns},
		{c.SpringAgain != 0, rs274.BlockDelete},
	} {
		if !f.has {
			d.Lacks |= f.what
		}
	}
	if c.WorkOffset != 0 && (c.WorkOffset < 54 || c.WorkOffset > 59) {
		wrong("work offset %v; G54 to G59 or none is taken", c.WorkOffset)
	}
	if c.BlockStep < 0 || c.BlockStep > 1000 {
		wrong("block step %d; 1 to 1000 is taken", c.BlockStep)
	}
	if c.ProgramNumber < 0 || c.ProgramNumber > owordMost {
		wrong("program_number = %d; at most 4 digits are taken", c.ProgramNumber)
	}
	if err := d.Check(); err != nil && len(bad) == 0 {
		wrong("%v", err)
	}
	return d, bad
}

// feedAxis is the letter of the slide that feeds along the bore.
func feedAxis(c *process.Control, by process.FeedBy) (byte, error) {
	name := c.FeedAxis
	if by == process.QuillFeed {
		name = c.QuillAxis
	}
	if name != 'Z' && name != 'W' {
		return 0, fmt.Errorf("axis of %s feed %q; Z or W is taken", by, name.String())
	}
	return byte(name), nil
}

// away is the axis and the sense in which the tool leaves the wall that the
// tip points to after an oriented stop: opposite to the tip.
func away(tip process.TipSide) (axis byte, sense qty.Length, err error) {
	switch tip {
	case process.TipPlusX:
		return 'X', -1, nil
	case process.TipMinusX:
		return 'X', +1, nil
	case process.TipPlusY:
		return 'Y', -1, nil
	case process.TipMinusY:
		return 'Y', +1, nil
	}
	return 0, 0, errors.New("where the tip points at the oriented stop is not said; +X, -X, +Y or -Y is taken")
}

// shallowerWord is a depth as the control can say it, cut toward the spindle:
// what must not be passed is not passed by rounding. It is worked in digits,
// because 0.000001 in is no whole number of nanometres.
func shallowerWord(depth qty.Length, d rs274.Dialect, u qty.Unit) qty.Length {
	scale, unit := int64(1), int64(u.Of(1))
	for range d.Part {
		scale *= 10
	}
	digits := int64(depth) / unit * scale // whole units apart, so that nothing overflows
	rest := int64(depth) % unit * scale
	digits += rest / unit
	if rest%unit < 0 {
		digits--
	}
	return qty.Length(digits/scale*unit) + qty.Length(math.Round(float64(digits%scale)*float64(unit)/float64(scale)))
}

// shallower cuts a length down to a whole number of steps.
func shallower(depth, least qty.Length) qty.Length {
	rest := depth % least
	if rest < 0 {
		rest += least
	}
	return depth - rest
}

// speedWord writes a spindle speed: whole, or to a tenth where a whole number
// would be off by more than 1 %, as on a slow geared step. A control in fixed
// format takes whole S words only; on it a geared step is called by the nearest
// one. It gives the speed that was written.
func speedWord(d rs274.Dialect, n qty.RevPerMin) (rs274.Word, float64, error) {
	off := func(s float64) float64 { return math.Abs(s/float64(n) - 1) }
	whole, tenths := math.Round(float64(n)), math.Round(float64(n)*10)
	switch {
	case n > 1e6:
	case off(whole) <= 0.01 || d.Numbers.Fixed() && off(whole) <= 0.05:
		return rs274.Whole('S', int(whole)), whole, nil
	case !d.Numbers.Fixed() && off(tenths/10) <= 0.01:
		w := rs274.Word{Letter: 'S', Point: true, Places: 1, Digits: int64(tenths), Value: tenths / 10,
			Text: fmt.Sprintf("%d.%d", int64(tenths)/10, int64(tenths)%10)}
		return w, w.Value, nil
	}
	return rs274.Word{}, 0, fmt.Errorf("speed %.4g rev/min: the control's S word cannot say it; choose a whole speed", float64(n))
}

// gearFor is the first range of the spindle that holds a speed; nil where the control has
// no words for them.
func gearFor(c *process.Control, n qty.RevPerMin) (*process.GearRange, error) {
	for i := range c.Gears {
		if g := &c.Gears[i]; g.Least <= float64(n) && float64(n) <= g.Most {
			return g, nil
		}
	}
	if len(c.Gears) == 0 {
		return nil, nil
	}
	return nil, fmt.Errorf("speed %.4g rev/min is in none of the spindle ranges that the machine file states under control.gear", float64(n))
}

// feedWord writes a feed per revolution, or what it makes a minute at speed s.
// A feed that the control's decimals change by more than 5 % is refused.
func feedWord(d rs274.Dialect, c *process.Control, feed qty.Length, s float64) (rs274.Word, error) {
	want := feed
	what := "rev"
	if !c.FeedPerRev {
		want, what = qty.Length(math.Round(float64(feed)*s)), "min"
	}
	w, err := d.Length('F', want, c.Units)
	if err != nil {
		return w, fmt.Errorf("feed %s %s/%s: %w", c.Units.FormatFine(want), c.Units, what, err)
	}
	if got := w.Length(c.Units); got <= 0 || math.Abs(float64(got-want)) > 0.05*float64(want) {
		return w, fmt.Errorf("feed %s %s/%s would be written F%s: the control's %d decimals change it by more than 5 %%",
			c.Units.FormatFine(want), c.Units, what, w.Text, d.Part)
	}
	return w, nil
}

// dwellWord writes a dwell of one full turn at speed s, rounded up.
func dwellWord(d rs274.Dialect, letter byte, s float64) (rs274.Word, error) {
	if d.DwellUnit == rs274.Revolutions {
		return rs274.Whole(letter, 1), nil
	}
	return secondsWord(d, letter, 60/s)
}

// secondsWord writes a dwell, rounded up.
func secondsWord(d rs274.Dialect, letter byte, seconds float64) (rs274.Word, error) {
	if d.DwellUnit == rs274.Milliseconds {
		return rs274.Whole(letter, int(math.Ceil(1000*seconds-1e-9))), nil
	}
	places, scale := min(d.Part, 3), 1.0
	for range places {
		scale *= 10
	}
	return d.Number(letter, int64(math.Ceil(seconds*scale-1e-9)), places)
}

// owordMost is the highest O number: most controls take four digits. Common
// practice, no source.
const owordMost = 9999
