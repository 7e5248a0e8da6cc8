package iso286

import (
	"fmt"
	"slices"
	"strings"

	"borewright/process/qty"
)

// The letters of the tables in the standard's order, loosest fit first.
var (
	holeLetters  = strings.Fields("A B C CD D E EF F FG G H J JS K M N P R S T U V X Y Z ZA ZB ZC")
	shaftLetters = strings.Fields("a b c cd d e ef f fg g h j js k m n p r s t u v x y z za zb zc")
)

func letters(k kind) []string {
	if k == hole {
		return holeLetters
	}
	return shaftLetters
}

func checkSize(d qty.Diameter) error {
	switch {
	case d <= 0:
		return fmt.Errorf("the nominal size must be above 0 mm, not %s mm", mm(d))
	case d > qty.DiameterMM(3150):
		return fmt.Errorf("ISO 286 goes up to 3150 mm (124 in); %s mm is beyond it: state the limits of size instead", mm(d))
	}
	return nil
}

func mm(d qty.Diameter) string { return trimZeros(qty.Metric.Decimals(d.Length(), 6)) }

// checkLetter tells a wrong letter from a hole's taken for a shaft's.
func checkLetter(class, letter string, k kind) error {
	if slices.Contains(letters(k), letter) {
		return nil
	}
	digits := class[len(letter):]
	other := strings.ToUpper(letter)
	if k == shaft {
		other = strings.ToLower(letter)
	}
	if slices.Contains(letters(k), other) {
		if strings.ToLower(letter) == letter || strings.ToUpper(letter) == letter {
			return fmt.Errorf("%s is a class for a %s; for a %s write %s", quote(class), 1-k, k, other+digits)
		}
		return fmt.Errorf("%s mixes capital and small letters; for a %s write %s", quote(class), k, other+digits)
	}
	have := fmt.Sprintf("the letters for a %s are %s", k, strings.Join(letters(k), " "))
	return fmt.Errorf("%s: ISO 286 has no letter %s; %s", quote(class), quote(letter), have)
}

// notAtThisSize says why a right letter has no limits at a size and grade, what
// exists there, and which class is nearest.
func notAtThisSize(d qty.Diameter, letter string, g grade, k kind) error {
	at := mm(d) + " mm"
	here := func(l string, g grade) bool { _, ok := resolve(d, l, g, k); return ok }
	var grades []grade
	for x := leastGrade; x <= mostGrade; x++ {
		if here(letter, x) {
			grades = append(grades, x)
		}
	}
	if len(grades) > 0 {
		near := grades[0]
		for _, x := range grades {
			if max(x-g, g-x) < max(near-g, g-near) {
				near = x
			}
		}
		return fmt.Errorf("the ISO 286 table has no %s%s at %s; %s goes with grades %s to %s there, nearest is %s%s",
			letter, g.digits(), at, letter, grades[0].digits(), grades[len(grades)-1].digits(), letter, near.digits())
	}
	var have []string
	for _, l := range letters(k) {
		if here(l, g) {
			have = append(have, l)
		}
	}
	if len(have) == 0 { // no letter at all has this grade here
		return fmt.Errorf("the ISO 286 table has no grade %v at %s", g, at)
	}
	own, near := slices.Index(letters(k), letter), have[0]
	for _, l := range have {
		if gap := abs(slices.Index(letters(k), l) - own); gap <= abs(slices.Index(letters(k), near)-own) {
			near = l // of two as near, the tighter
		}
	}
	return fmt.Errorf("the ISO 286 table has no %s at %s; with grade %s it has %s there, nearest is %s%s",
		letter, at, g.digits(), strings.Join(have, " "), near, g.digits())
}

func abs(i int) int { return max(i, -i) }
