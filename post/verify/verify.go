// Package verify replays an RS-274 program and proves that it cuts the plan and
// nothing else. It shares no code with the package that writes programs, so a
// mistake there is not made again here; it repairs nothing.
//
//	r := verify.Check(program, "wg-204-1.nc", plan, 0, 0)
//	if !r.Proven {
//		for _, f := range r.Findings { ... }
//	}
//
// What is held against the plan: the start block, the stops at which the cutter
// is set and the bore measured, the order and number of passes, where each
// feed begins and ends, S and F, how the cutter comes out, the way of every
// part of the bar past every wall, the travels, the end, and the size that the
// last pass leaves. A program that does anything the plan does not ask for is
// not proven, even where nobody would be hurt by it. What the comments tell the
// operator is read in remark; how a report prints is for sheets/proof.
//
// Geometry: Z0 is the face that the spindle enters, +Z points away from the
// work (ISO 841), so the depth of the tip is −Z (or −W, whichever slide feeds);
// X0 Y0 is the true axis. The tip is the point that the program steers. Lengths
// are whole nanometres.
package verify

import (
	"fmt"
	"slices"

	"borewright/post/rs274"
	"borewright/post/sum"
	"borewright/post/verify/around"
	"borewright/post/verify/mouth"
	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/post/verify/sentence"
	"borewright/post/verify/through"
	"borewright/process/plan"
	"borewright/process/storage"
)

// Several reports that a file may hold the programs of all visits of the plan, as its
// control stores them, and lists the O numbers in it that are those of no visit.
func Several(program []byte, p *plan.Plan) (several bool, strange []int) {
	return script.Several(program, p)
}

// Check replays the program and holds it against one visit of the plan, with those of the bores
// cut through at its setting; in a file of several, the program with the visit's number. name is
// the program's, for what is said of it as a whole; bore and visit are indices into p.Bores and
// its Visits. Any bytes may be a program: Check never panics, and needs no more memory than a few
// times the longest block.
func Check(program []byte, name string, p *plan.Plan, bore, visit int) Report {
	out := &script.Findings{}
	v := pick(p, bore, visit, out)
	if v == nil {
		return Report{Findings: out.Done(program, rs274.Dialect{})}
	}
	_, first := through.Bores(p, bore, visit)
	p, bore, visit = p.For(first[0], first[1]), first[0], first[1]
	bores, _ := through.Bores(p, bore, visit)
	v = through.Whole(bores)
	control := p.Job.Machine.Control
	if control.OneFile {
		n := script.NumberOf(p, bore, visit)
		if all := script.Numbers(program); len(all) > 0 && !slices.Contains(all, n) {
			out.Add(0, 0, script.KindPlan, fmt.Sprintf("the file has no program O%04d", n), fmt.Sprintf("that of %s, visit %d", p.Bores[bore].Station.Name, v.N))
			r := Report{Findings: out.Done(program, rs274.Dialect{})}
			if name != "" {
				r.Findings[0].What = name + ": " + r.Findings[0].What
			}
			return r
		}
		program = script.Alone(program, n)
	}
	d := script.Dialect(control)
	whole := program
	program = mouth.Apart(whole, &v.Visit)
	again := springAgain(control, v)
	words := script.ReadWords(program, d, p.Job, again >= 0)
	words.Judge(out, control, v, script.NumberOf(p, bore, visit))
	f := newFollower(p, bores, v, out)
	f.said, f.saidS = words.Remarks.Stops, words.NoSpeeds
	f.around = around.New(p.Job, &p.Bores[bore], v, f.axis, words.Numbers, out)
	f.judgeApart(words.Remarks.Apart)
	if d.DeleteOn = again >= 0; p.Job.Bar.Outboard == nil {
		d.HandsAtStop = rs274.X | rs274.Y | f.axis
	}
	f.run(program, d)
	if again >= 0 {
		f.holdAgain(program, d, p, bores, bore, again, words)
	}
	var loose []remark.Remark
	var unsaid []string
	if !f.unread {
		book := sentence.New(p, bore, visit, f.plane)
		book.Sum(sum.Stated(whole))
		loose = f.holdRemarks(book, words.Remarks)
		if unsaid = book.Unsaid(); control.Comments && control.Remarks != storage.NoRemarks && slices.Contains(unsaid, sentence.FaceTopic) && !out.Has(0, 1<<30) {
			out.Add(0, 0, script.KindRemark, "does not say at every stop to set the cutter which face is at the spindle", book.FaceSaid())
		}
	}
	mouth.Check(whole, script.Dialect(control), p.Job, &v.Visit, out)
	out.Once(f.stopLines(), f.misread, f.cutLines())
	r := Report{
		Findings: out.Done(whole, d), Cuts: f.cuts, Shape: f.pieces(), Near: f.nearest(), Minutes: f.minutes,
		FinalSize: f.final, Assumed: f.assumed(), NotHeld: loose, Unsaid: unsaid,
		Unread: f.unread, Sum: sum.Of(whole), Stated: sum.Stated(whole),
	}
	r.Proven = len(r.Findings) == 0
	for i := range r.Findings {
		if r.Findings[i].Line == 0 && name != "" {
			r.Findings[i].What = name + ": " + r.Findings[i].What
		}
	}
	return r
}

// pick finds the visit, or says why there is none to prove.
func pick(p *plan.Plan, bore, visit int, out *script.Findings) *plan.Visit {
	none := func(what, want string) *plan.Visit {
		out.Add(0, 0, script.KindPlan, what, want)
		return nil
	}
	switch {
	case p == nil || p.Job == nil:
		return none("there is no plan", "plan the job first")
	case p.Job.Machine == nil || p.Job.Machine.Control == nil:
		return none("the plan is for a machine without a control", "a job whose machine has one")
	case bore < 0 || bore >= len(p.Bores):
		return none(fmt.Sprintf("the plan has no bore %d", bore+1), fmt.Sprintf("a bore from 1 to %d", len(p.Bores)))
	}
	b := &p.Bores[bore]
	switch {
	case visit < 0 || visit >= len(b.Visits):
		return none(fmt.Sprintf("%s has no visit %d", b.Station.Name, visit+1), fmt.Sprintf("a visit from 1 to %d", len(b.Visits)))
	case b.Bore.Station < 0 || b.Bore.Station >= len(p.Job.Stations):
		return none("the bore belongs to no station", "plan the job again")
	}
	if !p.Feasible {
		out.Add(0, 0, script.KindPlan, "the plan is not feasible", "a plan that is: no program can be proven against this one")
	}
	v := &b.Visits[visit]
	if v.SetInside {
		return none(b.Station.Name+": the plan puts the cutter into the bar inside the work, by hand", "the sheet: no program sets a cutter in there")
	}
	if len(v.Passes) == 0 {
		return none(b.Station.Name+" has no passes in this visit", "a plan with passes")
	}
	return v
}
