package bar

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"sync"
)

// Section is one cylinder of the bar.
type Section struct {
	D      float64 // diameter, mm
	Hole   float64 // diameter of a hole through it, mm; 0: solid
	Length float64 // mm
	E      float64 // modulus of elasticity, MPa
	Nu     float64 // Poisson's ratio
	Rho    float64 // density, kg/m³

	Damping [2]float64 // damping ratio of what it is made of, least and most; 0: not known, no part of it
}

// Root is how the spindle nose yields. +Inf is rigid.
type Root struct {
	Radial float64 // N/mm
	Tilt   float64 // N·mm/rad

	Damping [2]float64 // damping ratio of the joint, and of an outboard bearing, least and most

	// Near is the bearing in front of the spindle that a line bar runs in; the spindle only
	// turns it then, and does not yield. nil: the bar stands in the nose.
	Near *Support
}

// Support is an outboard bearing. It stands still when the quill moves.
type Support struct {
	At        float64 // from the spindle nose, mm
	Stiffness float64 // radial, N/mm; +Inf is rigid
	Play      float64 // running clearance on diameter, mm; see Meet
}

// Beam is a bar in its spindle.
type Beam struct {
	sections []Section
	root     Root
	cutter   float64 // from the nose
	support  *Support
	line     *pair   // the two bearings of a line bar; root and support are not used then
	tip      float64 // mass of the head at the cutter, kg
	length   float64
	parts    []part

	solved   sync.Once
	modes    []Mode
	unsolved error
}

// part is a length of one section with neither cutter nor bearing inside it.
type part struct {
	from, to float64
	d, e     float64 // diameter, modulus
	ei       float64 // E·I, N·mm²
	give     float64 // what a moment bends it by, 1/(E·I) and beside a shoulder more, 1/(N·mm²)
	kga      float64 // κ_s·G·A, N
	weight   float64 // N/mm
	gyration float64 // I/A, mm²
	damping  [2]float64
}

// New makes a beam of sections from the nose outward, with the cutter's tip
// cutterAt from the nose, an outboard bearing or nil, and a head of tipMass kg
// at the cutter. The error names every figure that is out of range.
func New(sections []Section, root Root, cutterAt float64, support *Support, tipMass float64) (*Beam, error) {
	var errs []error
	bad := func(format string, a ...any) { errs = append(errs, fmt.Errorf(format, a...)) }
	b := &Beam{sections: append([]Section(nil), sections...), root: root, cutter: cutterAt, tip: tipMass}
	if len(sections) == 0 {
		bad("the bar has no sections; at least one is needed")
	}
	for i, s := range sections {
		in := fmt.Sprintf("section %d", i+1)
		if !(s.D > 0 && s.D < 1e4) {
			bad("%s: diameter %g mm; it must be above 0", in, s.D)
		}
		if !(s.Hole >= 0 && s.Hole < s.D) {
			bad("%s: hole %g mm in a bar of %g mm; it must be at least 0 and less than the bar", in, s.Hole, s.D)
		}
		if !(s.Length > 0 && s.Length < 1e5) {
			bad("%s: length %g mm; it must be above 0", in, s.Length)
		}
		if !(s.E >= 1e3 && s.E <= 1e6) {
			bad("%s: modulus %g MPa; it must be from 1000 to 1000000", in, s.E)
		}
		if !(s.Nu >= 0 && s.Nu < 0.5) {
			bad("%s: Poisson's ratio %g; it must be from 0 to below 0.5", in, s.Nu)
		}
		if !(s.Rho > 0 && s.Rho < 3e4) {
			bad("%s: density %g kg/m³; it must be above 0 and below 30000", in, s.Rho)
		}
		b.length += s.Length
	}
	if !(root.Radial > 0) {
		bad("radial stiffness of the nose %g N/mm; it must be above 0", root.Radial)
	}
	if !(root.Tilt > 0) {
		bad("tilt stiffness of the nose %g N·mm/rad; it must be above 0", root.Tilt)
	}
	if !(tipMass >= 0 && tipMass < 1e5) {
		bad("mass of the head %g kg; it must be 0 or more", tipMass)
	}
	if len(errs) == 0 && !(cutterAt > 0 && cutterAt <= b.length*(1+1e-9)) {
		bad("cutter %g mm from the nose; the bar reaches from 0 to %g", cutterAt, b.length)
	}
	if support != nil {
		s := *support
		b.support = &s
		if !(s.Stiffness > 0) {
			bad("stiffness of the outboard bearing %g N/mm; it must be above 0", s.Stiffness)
		}
		if !(s.Play >= 0 && s.Play < 1e3) {
			bad("clearance of the outboard bearing %g mm; it must be 0 or more", s.Play)
		}
		if len(errs) == 0 && !(s.At > 0 && s.At <= b.length*(1+1e-9)) {
			bad("outboard bearing %g mm from the nose; the bar reaches from 0 to %g", s.At, b.length)
		}
	}
	b.support, errs = b.inLine(errs)
	if len(errs) > 0 {
		return nil, errors.Join(errs...)
	}
	b.cutter = min(b.cutter, b.length)
	if b.support != nil {
		b.support.At = min(b.support.At, b.length)
	}
	b.cut()
	return b, nil
}

// cut splits the sections at the cutter, at the bearing, and where a shoulder
// softens them.
func (b *Beam) cut() {
	stops := []float64{b.cutter}
	if b.support != nil {
		stops = append(stops, b.support.At)
	}
	if b.line != nil {
		stops = append(stops, b.line[0].At, b.line[1].At)
	}
	start := 0.0
	for i, s := range b.sections {
		area := math.Pi / 4 * (s.D*s.D - s.Hole*s.Hole)
		p := part{
			d: s.D, e: s.E, ei: s.E * s.inertia(),
			kga:    shear(s.Hole/s.D, s.Nu) * s.E / (2 * (1 + s.Nu)) * area,
			weight: s.Rho * 1e-9 * area * gravity, gyration: s.inertia() / area, damping: s.Damping,
		}
		end := start + s.Length
		near, far := b.shoulders(i)
		at := append([]float64{start + near.length, end - far.length, end}, stops...)
		sort.Float64s(at)
		x := start
		for _, c := range at {
			if c <= x+tiny || c > end+tiny {
				continue
			}
			p.from, p.to, p.give = x, c, 1/p.ei
			if mid := (x + c) / 2; mid < start+near.length {
				p.give += near.give
			} else if mid > end-far.length {
				p.give += far.give
			}
			b.parts = append(b.parts, p)
			x = c
		}
		start = end
	}
}

const (
	gravity = 9.80665 // m/s², standard (CGPM 1901)
	tiny    = 1e-9    // mm
)

// shear is the shear coefficient κ_s of a round section with a hole of m times
// its diameter:
//
//	κ_s = 6(1+ν)(1+m²)² / [(7+6ν)(1+m²)² + (20+12ν)m²]
//
// Source: G. R. Cowper, J. Appl. Mech. 33 (1966) 335; from memory. 0.886 for a
// solid round with ν 0.3.
func shear(m, nu float64) float64 {
	q := (1 + m*m) * (1 + m*m)
	return 6 * (1 + nu) * q / ((7+6*nu)*q + (20+12*nu)*m*m)
}

// gauss3 integrates polynomials up to the fifth degree exactly over −1…1.
var gauss3 = [3][2]float64{{-0.7745966692414834, 5.0 / 9}, {0, 8.0 / 9}, {0.7745966692414834, 5.0 / 9}}

// influence is the deflection at p under a unit load at q, mm/N, of the bar
// without its bearing, by unit loads (Castigliano):
//
//	δ = ∫ (p−x)(q−x)/EI dx + ∫ dx/(κ_s·G·A) + 1/k_r + p·q/k_θ,  x from 0 to the lesser of p, q
//
// 1/EI is more beside a shoulder (see shoulders).
// The second figure leaves out shear and root.
func (b *Beam) influence(p, q float64) (whole, bending float64) {
	if b.line != nil {
		return b.between(p, q, false)
	}
	least := min(p, q)
	var slip float64
	for _, s := range b.parts {
		to := min(s.to, least)
		if to <= s.from {
			break
		}
		mid, half := (s.from+to)/2, (to-s.from)/2
		for _, g := range gauss3 {
			x := mid + g[0]*half
			bending += g[1] * half * (p - x) * (q - x) * s.give
		}
		slip += (to - s.from) / s.kga
	}
	return bending + slip + 1/b.root.Radial + p*q/b.root.Tilt, bending
}

// Extended is the same bar with the quill out by more: a length of quill comes
// between the nose and the bar, and the cutter moves out with it. An outboard
// bearing stays where it stands and the bar runs through it.
// Only D, Hole, E, Nu and Rho of quill are used. A line bar is pushed on through both
// bearings; no quill is part of it.
func (b *Beam) Extended(quill Section, out float64) (*Beam, error) {
	if !(out >= 0) {
		return nil, fmt.Errorf("quill out by %g mm; it must be 0 or more", out)
	}
	if b.line != nil {
		return b.moved(out)
	}
	if out < tiny {
		return New(b.sections, b.root, b.cutter, b.support, b.tip)
	}
	quill.Length = out
	sections := append([]Section{quill}, b.sections...)
	long, err := New(sections, b.root, b.cutter+out, b.support, b.tip)
	if err != nil {
		return nil, fmt.Errorf("quill out by %g mm: %w", out, err)
	}
	return long, nil
}

// Overhang is the unsupported length over diameter, for comparison with the
// trade's limits (4 for a plain steel bar). For a stepped bar it is that of the
// plain bar, as thick and of the same material as the section that gives way
// most, that bends as much at the cutter:
//
//	L_e = (3·E·I·δ)^(1/3),  overhang = L_e/D
//
// with δ the bending alone, on a rigid nose. A plain cantilever bar has just
// its length over its diameter; a short thick root hardly counts, as a
// machinist would have it, since the slender part governs. An outboard bearing
// shortens L_e to that of the cantilever bar that is as stiff: a bar on a fixed
// nose and a rigid bearing, cutting in the middle, counts for 0.30 of its span.
// What shoulders add is left out, as anybody leaves it out who measures with a
// rule, and so is the play of a bearing.
func (b *Beam) Overhang() float64 {
	share := b.bearingShare()
	var bend, most float64
	var soft part
	for _, s := range b.parts {
		mid, half := (s.from+s.to)/2, (s.to-s.from)/2
		var own float64
		for _, g := range gauss3 {
			x := mid + g[0]*half
			m := max(0, b.cutter-x)
			if b.support != nil {
				m -= share * max(0, b.support.At-x)
			}
			if b.line != nil {
				m, _ = b.line.inside(x, b.cutter, false)
			}
			own += g[1] * half * m * m / s.ei
		}
		bend += own
		if own > most {
			most, soft = own, s
		}
	}
	return math.Cbrt(3*soft.ei*bend) / soft.d
}
