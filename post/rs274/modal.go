package rs274

import "fmt"

// gather sorts the words of a block and finds what may not stand together.
func (p *Interpreter) gather(b *Block) {
	c := &p.c
	c.in, c.dwell, c.home, c.have, c.strange = none, false, nil, 0, false
	ms := 0
	for i := range b.Words {
		w := &b.Words[i]
		switch w.Letter {
		case 'G':
			p.gCode(w)
		case 'M':
			if ms++; ms == 5 {
				p.fault(w.Col, "a fifth M word in the block", "at most four, one of a group")
			}
			p.mCode(w)
		default:
			if w.Letter < 'A' || w.Letter > 'Z' {
				continue // a block that no scanner made
			}
			i := w.Letter - 'A'
			if c.have>>i&1 != 0 {
				p.fault(w.Col, fmt.Sprintf("a second %c word in the block", w.Letter), fmt.Sprintf("one; the first is at column %d", c.words[i].Col))
				continue
			}
			c.words[i], c.have = w, c.have|1<<i
		}
	}
}

func (p *Interpreter) gCode(w *Word) {
	t := w.tenths()
	if (t == 280 || t == 530) && !p.d.lacks(Returns) {
		if p.c.home != nil {
			p.fault(w.Col, "G"+w.Text+" beside G"+p.c.home.Text, "one return a block")
		}
		p.c.home = w
		return
	}
	g := noGroup
	if t >= 0 && t < int64(len(gGroup)) {
		g = gGroup[t]
	}
	switch {
	case g == notModal: // G4
		if p.c.dwell {
			p.fault(w.Col, "a second G4 in the block", "one dwell a block")
		}
		p.c.dwell = true
		return
	case g != noGroup:
	case gRefused[t][0] != "":
		p.fault(w.Col, fmt.Sprintf("G%d %s", t/10, gRefused[t][0]), gRefused[t][1])
		return
	default:
		p.c.strange = true
		p.fault(w.Col, "unknown code G"+w.Text, "a G code of plain RS-274")
		return
	}
	if why := p.lacking(t); why != "" {
		p.fault(w.Col, "G"+w.Text+why, "a code that the control takes")
	}
	p.join(g, t, w)
}

// lacking says that a known G code is not one of the dialect's.
func (p *Interpreter) lacking(t int64) string {
	d := &p.d
	switch {
	case t == 950 && d.lacks(PerRev):
		return ": this control has no feed per revolution"
	case t >= 810 && t <= 890 && d.lacks(Cycles):
		return ": this control has no cycles"
	case t >= 980 && d.lacks(ReturnWords):
		return ": this control has no return words"
	case (t == 200 || t == 210) && d.UnitsWords == G70G71:
		return ": this control has G70 for inch and G71 for mm"
	case (t == 700 || t == 710) && d.UnitsWords == G20G21:
		return ": this control has G20 for inch and G21 for mm"
	}
	return ""
}

func (p *Interpreter) mCode(w *Word) {
	t := w.tenths()
	g := noGroup
	if t >= 0 && t < int64(len(mGroup)) {
		g = mGroup[t]
	}
	switch {
	case g == noGroup:
		p.c.strange = true
		p.fault(w.Col, "unknown code M"+w.Text, "an M code of plain RS-274")
		return
	case t == 190 && p.d.lacks(Oriented):
		p.fault(w.Col, "M19: this control has no oriented stop", "M0, and a comment that tells the operator how to turn the tip")
	}
	if g == gear && p.d.lacks(GearWords) {
		p.fault(w.Col, fmt.Sprintf("M%d: this control has no words for ranges of the spindle", t/10), "S alone")
	}
	p.join(g, t, w)
}

// join puts a code into its group, where it must be alone.
func (p *Interpreter) join(g group, t int64, w *Word) {
	if p.c.in[g] >= 0 {
		p.fault(w.Col, fmt.Sprintf("%c%s and %c%s are both of the group %s", p.c.word[g].Letter, p.c.word[g].Text, w.Letter, w.Text, groupNames[g]), "one code of a group in a block")
		return
	}
	p.c.in[g], p.c.word[g] = t, w
}
