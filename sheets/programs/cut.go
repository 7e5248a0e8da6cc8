package programs

import (
	"cmp"
	"slices"

	"borewright/process"
	"borewright/process/plan"
	"borewright/process/schedule"
	"borewright/sheets/document"
)

// CutBy is the program by which the pass of an entry was cut: that of the plan before the
// entry or, where the entry's cutter setting, feed and speed are not those of that plan,
// of the last one before it that has them, for whoever goes on with the program that is
// in the control. The zero value: there is none, or it is not known. before are the
// entries before it.
func CutBy(job *process.Job, before []process.Measured, m process.Measured) document.Program {
	return (&plans{job: job, entries: before}).cutBy(len(before), m)
}

// AsCut are the programs by which the measured passes of a job were cut, in the order of
// the work, each with these passes. An entry that names its program is taken at its word;
// for the others the programs are written again.
func AsCut(job *process.Job, results *process.Results) (all []document.Program) {
	if results == nil {
		return nil
	}
	k := &plans{job: job, entries: results.Entries}
	for i, m := range results.Entries {
		is := document.Program{Name: m.Program, Sum: m.ProgramSum, Noted: m.Program != ""}
		if !is.Noted {
			is = k.cutBy(i, m)
		}
		if is.Name == "" {
			continue
		}
		at := slices.IndexFunc(all, func(x document.Program) bool { return x.Name == is.Name && x.Sum == is.Sum && x.Noted == is.Noted })
		if at < 0 {
			at = len(all)
			all = append(all, is)
		}
		if !slices.Contains(all[at].Passes, m.Pass) {
			all[at].Passes = append(all[at].Passes, m.Pass)
		}
	}
	return all
}

// plans are those of a job after each of its entries, made when they are asked for.
type plans struct {
	job     *process.Job
	entries []process.Measured
	made    map[int]*plan.Plan
	written map[int][]Program
}

// cutBy is CutBy, of the entry behind the first n.
func (k *plans) cutBy(n int, m process.Measured) document.Program {
	if k.job.Machine.Control == nil || m.Kind == process.SleeveFitted || cmp.Or(m.Revision, k.job.Revision) != k.job.Revision {
		return document.Program{}
	}
	last := -1
	for i := n; i >= 0; i-- {
		bore, visit, q := k.find(i, m)
		if q == nil {
			continue
		}
		if last < 0 {
			last = i
		}
		if cmp.Or(m.Setting, q.Setting) == q.Setting && cmp.Or(m.Feed, q.Feed) == q.Feed && cmp.Or(m.Speed, q.Speed) == q.Speed {
			return k.called(i, bore, visit)
		}
	}
	if last < 0 {
		return document.Program{}
	}
	bore, visit, _ := k.find(last, m)
	return k.called(last, bore, visit)
}

// find looks for the pass of an entry in the plan after n entries.
func (k *plans) find(n int, m process.Measured) (bore, visit int, q *schedule.Pass) {
	if k.made == nil {
		k.made, k.written = map[int]*plan.Plan{}, map[int][]Program{}
	}
	p := k.made[n]
	if p == nil {
		p = plan.MakeAfter(k.job, &process.Results{Entries: k.entries[:n]})
		k.made[n] = p
	}
	bore, visit, q = p.Pass(m.Station, m.Pass)
	if q != nil && m.Visit != 0 && m.Visit != p.Bores[bore].Visits[visit].N {
		return 0, 0, nil
	}
	return bore, visit, q
}

// called is the program of a visit of the plan after n entries.
func (k *plans) called(n, bore, visit int) document.Program {
	if _, ok := k.written[n]; !ok {
		k.written[n], _ = Of(k.made[n]) // whoever writes them says what is wrong
	}
	bore, visit = k.made[n].Lead(bore, visit)
	for _, w := range k.written[n] {
		if w.Bore == bore && w.Visit == visit {
			return w.Called
		}
	}
	return document.Program{}
}
