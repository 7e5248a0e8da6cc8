package bar

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// pair is the two bearings of a line bar, near the spindle and far from it. The spindle
// turns such a bar through a driver that floats: it gives no force across the bar, so the
// nose does not enter. The two bearings alone carry it, and by statics a unit load at q
// rests on them with
//
//	R_a = (b − q)/L,  R_b = (q − a)/L,  L = b − a
//
// which is below 0 on the one where the load hangs out beyond the other.
type pair [2]Support

// rests is how much of a unit load at q each bearing carries, and by how much that changes
// as q moves on, 1/mm: the share of a unit moment.
func (p *pair) rests(q float64) (of, by [2]float64) {
	l := p[1].At - p[0].At
	return [2]float64{(p[1].At - q) / l, (q - p[0].At) / l}, [2]float64{-1 / l, 1 / l}
}

// inside is the moment and the shear at x under a unit load at q (turned false), or under a
// unit moment there:
//
//	M = R_a·⟨x−a⟩ + R_b·⟨x−b⟩ − ⟨x−q⟩,  ⟨y⟩ = y where it is above 0, else 0
//
// Source: any text on strength of materials (singularity functions).
func (p *pair) inside(x, q float64, turned bool) (moment, shear float64) {
	of, by := p.rests(q)
	if turned {
		of = by
	}
	for i, s := range p {
		if x > s.At {
			moment, shear = moment+of[i]*(x-s.At), shear+of[i]
		}
	}
	switch {
	case x <= q:
	case turned:
		moment++
	default:
		moment, shear = moment-(x-q), shear-1
	}
	return moment, shear
}

// between is the deflection at p under a unit load at q, mm/N, or with turned the slope at p,
// rad/N (of the section, without the shear angle), by unit loads (Castigliano):
//
//	δ = ∫ M_p·M_q/EI dx + ∫ V_p·V_q/(κ_s·G·A) dx + Σ R_i(p)·R_i(q)/k_i
//
// bending is the first part alone.
func (b *Beam) between(p, q float64, turned bool) (whole, bending float64) {
	for _, s := range b.parts {
		at := [4]float64{s.from, clamp(p, s.from, s.to), clamp(q, s.from, s.to), s.to}
		if at[1] > at[2] {
			at[1], at[2] = at[2], at[1]
		}
		for i := range 3 {
			mid, half := (at[i]+at[i+1])/2, (at[i+1]-at[i])/2
			if half <= 0 {
				continue
			}
			for _, g := range gauss3 {
				mp, vp := b.line.inside(mid+g[0]*half, p, turned)
				mq, vq := b.line.inside(mid+g[0]*half, q, false)
				bending += g[1] * half * mp * mq * s.give
				whole += g[1] * half * vp * vq / s.kga
			}
		}
	}
	of, by := b.line.rests(p)
	if turned {
		of = by
	}
	other, _ := b.line.rests(q)
	for i, s := range b.line {
		whole += of[i] * other[i] / s.Stiffness
	}
	return whole + bending, bending
}

func clamp(x, lo, hi float64) float64 { return min(max(x, lo), hi) }

// inLine takes the two bearings of a line bar in the place of nose and outboard bearing. It
// gives the bearing that is left beside the nose, and what is wrong.
func (b *Beam) inLine(errs []error) (*Support, []error) {
	near := b.root.Near
	if near == nil {
		return b.support, errs
	}
	switch far := b.support; {
	case far == nil:
		errs = append(errs, errors.New("a line bar needs an outboard bearing"))
	case !(near.Stiffness > 0):
		errs = append(errs, fmt.Errorf("stiffness of the inboard bearing %g N/mm; it must be above 0", near.Stiffness))
	case !(near.Play >= 0 && near.Play < 1e3):
		errs = append(errs, fmt.Errorf("clearance of the inboard bearing %g mm; it must be 0 or more", near.Play))
	case !(near.At >= 0 && near.At < far.At):
		errs = append(errs, fmt.Errorf("inboard bearing %g mm from the nose; it must be from 0 to before the outboard one, at %g", near.At, far.At))
	default:
		b.line = &pair{*near, *far}
		b.line[1].At = min(far.At, b.length)
	}
	return nil, errs
}

// moved is a line bar that was pushed on through its bearings by so much.
func (b *Beam) moved(on float64) (*Beam, error) {
	near, far := b.line[0], b.line[1]
	near.At, far.At = near.At-on, far.At-on
	root := b.root
	root.Near = &near
	bar, err := New(b.sections, root, b.cutter, &far, b.tip)
	if err != nil {
		return nil, fmt.Errorf("bar on by %g mm: %w", on, err)
	}
	return bar, nil
}

// seat is one bearing of a line bar with what rests on it.
type seat struct {
	g      float64 // half of its play, mm
	of, by float64 // its share of a unit load and of a unit moment at the cutter
	weight float64 // of the bar on it, N
}

// seats are the bearings of a line bar as the cutter stands between them.
func (b *Beam) seats() (out [2]seat) {
	of, by := b.line.rests(b.cutter)
	for i, s := range b.line {
		out[i] = seat{g: s.Play / 2, of: of[i], by: by[i], weight: b.tip * gravity * of[i]}
	}
	for _, p := range b.parts {
		w := p.weight * (p.to - p.from)
		of, _ := b.line.rests((p.from + p.to) / 2)
		out[0].weight, out[1].weight = out[0].weight+w*of[0], out[1].weight+w*of[1]
	}
	return out
}

// Loose is by how much, ± mm, the axis of the bore is not known because a line bar has play:
// at rest it lies at the bottom of its bearings, and a cut that carries it round brings
// its mean to their middle. Sag has the middle of the two. 0 for any other bar.
func (b *Beam) Loose() float64 {
	var loose float64
	if b.line != nil {
		for _, s := range b.seats() {
			loose += s.of * s.g / 2
		}
	}
	return math.Abs(loose)
}

// lineGap is a line bar in bearings with play. It has no other hold, so it always lies
// against both, each at the side to which the force on it points:
//
//	u_i = g_i·N_i/|N_i| + N_i/k_i,  N_i = R_i·F + W_i
//
// F of the cut goes round with the tip, W_i of the weight stays down. The bearings are taken
// as short, round, without friction and without their film of oil.
type lineGap struct {
	seats       [2]seat
	cutter, arm float64 // as Compliance and ArmCompliance
}

// push is how far the tip is pushed toward smaller radius in the mean of a turn. The mean of
// the direction of N over a turn lies along F, with r = |R_i·F| and W the weight, and is
//
//	[(r + W)·E(m) + (r − W)·K(m)]/(π·r),  m = 4·r·W/(r + W)²
//
// which is d/dr of the mean length of N, a complete elliptic integral.
func (k *lineGap) push(l Load) float64 {
	push := k.cutter*l.Radial - k.arm*l.Arm
	for _, s := range k.seats {
		in, across := s.of*l.Radial-s.by*l.Arm, s.of*l.Tangential
		if r := math.Hypot(in, across); r > 0 && s.g > 0 {
			push += s.of * s.g * along(r, math.Abs(s.weight)) * in / r
		}
	}
	return push
}

// along is that mean: 0 where the weight is all, 1 where the cut is.
func along(r, weight float64) float64 {
	if weight == 0 {
		return 1
	}
	m := 4 * r * weight / ((r + weight) * (r + weight))
	if 1-m < 1e-12 {
		return 2 / math.Pi // K grows without end there, its factor is 0
	}
	return ((r+weight)*mathext.CompleteE(m) + (r-weight)*mathext.CompleteK(m)) / (math.Pi * r)
}

// meet is Contact. Against a small motion a bearing gives 1/k along N, and across it besides
// g/|N|: the bar rolls in its bush. Of what the bar gives with closed bearings, Held is the
// share of the whole where that is least in the turn.
func (k *lineGap) meet(l Load) Contact {
	out := Contact{Push: k.push(l), Held: 1}
	var push [clock]float64
	for i := range push {
		s, c := math.Sincos(2 * math.Pi * float64(i) / clock)
		var rolls float64
		for _, b := range k.seats {
			x, y := b.of*l.Radial-b.by*l.Arm+b.weight*c, b.of*l.Tangential+b.weight*s
			e2 := x*x + y*y
			if b.g == 0 || e2 == 0 {
				continue
			}
			e := math.Sqrt(e2)
			push[i] += b.of * b.g * x / e
			rolls += b.of * b.of * b.g / e * (1 - x*x/e2)
			out.Moves = max(out.Moves, b.g)
		}
		out.Held = min(out.Held, k.cutter/(k.cutter+rolls))
	}
	out.Uneven = uneven(push)
	return out
}

// uneven is the most over the least of what a turn brings, once a turn taken out.
func uneven(push [clock]float64) float64 {
	var cos, sin float64
	for i, p := range push {
		s, c := math.Sincos(2 * math.Pi * float64(i) / clock)
		cos, sin = cos+2*p*c/clock, sin+2*p*s/clock
	}
	least, most := math.Inf(1), math.Inf(-1)
	for i, p := range push {
		s, c := math.Sincos(2 * math.Pi * float64(i) / clock)
		p -= cos*c + sin*s
		least, most = min(least, p), max(most, p)
	}
	return most - least
}
