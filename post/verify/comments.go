package verify

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/post/verify/sentence"
	"borewright/process/qty"
)

// judgeApart holds the settings in comments that belong to no stop against the
// plan: those of the header's list of passes each against its own, all others
// against any.
func (f *follower) judgeApart(all []remark.Apart) {
	for _, a := range all {
		f.judgeTip(a.Said)
		if a.Header {
			f.judgeHeader(a.Said)
			f.judgeUnits(a.Said)
			continue
		}
		o := remark.Read(a.Said)
		for _, n := range o.Sizes {
			if o.Set && !f.anyPass(0, n) {
				f.wrongSetting(n, "a setting of the plan, at its stop")
			}
		}
	}
}

// judgeHeader holds the settings in the header's list of passes.
func (f *follower) judgeHeader(said []remark.Remark) {
	for _, s := range remark.Settings(said) {
		if f.anyPass(s.Pass, s.Size) {
			continue
		}
		want := "a setting of the plan"
		for i := range f.v.Passes {
			if p := &f.v.Passes[i]; p.N == s.Pass {
				want = fmt.Sprintf("pass %d is cut at %s", p.N, f.dia(p.Setting))
			}
		}
		f.wrongSetting(s.Size, want)
	}
}

// judgeTip holds what is said of the tip at the oriented stop against the
// control: the operator tries it by hand.
func (f *follower) judgeTip(said []remark.Remark) {
	for _, tip := range remark.Tips(said) {
		if want := f.control.TipAtStop.String(); f.v.Shift() > 0 && tip.Text != want {
			f.out.Add(tip.Line, '(', script.KindRetract, "a comment has the tip stop at "+tip.Text, want+": there it stops on this machine")
		}
	}
}

// judgeUnits holds the units that the header names against those of the program
// and of the sizes in its text.
func (f *follower) judgeUnits(said []remark.Remark) {
	names := map[qty.Unit]string{qty.Inches: "INCH", qty.Metric: "MM"}
	for _, s := range remark.Units(said) {
		switch {
		case s.OfText && s.Unit != f.job.Units:
			f.out.Add(s.Line, '(', script.KindStart, "a comment says that sizes in text are in "+names[s.Unit], names[f.job.Units]+": the units of the job")
		case !s.OfText && s.Unit != f.u:
			f.out.Add(s.Line, '(', script.KindStart, "a comment says that the units are "+names[s.Unit], names[f.u]+": the units of this control's programs")
		}
	}
}

func (f *follower) wrongSetting(n remark.Size, want string) {
	f.out.Add(n.Line, '(', script.KindSetting, "a comment says to set the cutter to "+f.stated(n), want)
}

// anyPass reports that a size is the setting of the pass with the number, or,
// by number 0 or one that the plan does not have, of any.
func (f *follower) anyPass(number int, n remark.Size) bool {
	any := false
	for i := range f.v.Passes {
		ok := f.states(n, f.v.Passes[i].Setting)
		if f.v.Passes[i].N == number {
			return ok
		}
		any = any || ok
	}
	return any
}

// stated is a size as a comment has it, with the unit that it is taken to be in.
func (f *follower) stated(s remark.Size) string {
	u := f.job.Units
	if s.Named {
		u = s.Unit
	}
	return s.Text + " " + u.String()
}

// states reports that a stated size is the diameter. Without a unit it may be in
// the job's or in the program's.
func (f *follower) states(s remark.Size, d qty.Diameter) bool {
	return s.States(d, f.job.Units, f.u)
}

// holdRemarks holds every remark whole, where the replay came by, and gives those
// that nothing of the plan is like. What has been found at a remark already is not
// said again.
func (f *follower) holdRemarks(book *sentence.Book, all remark.Gathered) (loose []remark.Remark) {
	hold := func(at sentence.Place, said []remark.Remark, setting bool) {
		wrong, rest := book.Hold(at, said)
		for _, w := range wrong {
			if f.out.Has(w.From, w.To) || setting && w.Setting {
				continue
			}
			f.out.Add(w.From, '(', script.KindRemark, w.What, w.Want)
		}
		loose = append(loose, rest...)
	}
	for _, a := range all.Apart {
		hold(sentence.Place{Before: -1, After: -1, Any: true}, a.Said, false)
	}
	for _, line := range slices.Sorted(maps.Keys(f.places)) {
		hold(f.places[line], all.Stops[line], f.out.Blames(line, script.KindSetting) || f.out.Blames(line, script.KindPass))
	}
	slices.SortStableFunc(loose, func(a, b remark.Remark) int { return cmp.Compare(a.Line, b.Line) })
	return loose
}
