package serve

import (
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
	"strings"

	"borewright/cmd/folder"
	"borewright/cmd/jobfile"
	"borewright/cmd/serve/ahead"
	"borewright/process/source"
)

// mostSaid is how much is kept of what came of a job, in characters.
const mostSaid = 300

// aheadWork is what plans the jobs of the folder in the background: those that it does not know
// to be planned or finished.
func (s *Server) aheadWork() ahead.Work {
	return ahead.Work{
		Jobs: func() (files []string, others int, err error) {
			jobs, err := s.jobs()
			for _, j := range jobs {
				switch j.State {
				case folder.NotRead:
				case folder.Planned, folder.Finished:
					others++
				default:
					files = append(files, j.File)
				}
			}
			return files, others, err
		},
		Plan: s.planAhead, Seen: s.seen,
		Read: func(file string) []byte {
			data, _ := s.inside(file)
			return data
		},
	}
}

// planAhead plans a job and keeps a few words of it.
func (s *Server) planAhead(name string) (f ahead.Found) {
	file, err := s.pathOf(name)
	x := &planned{of: map[string]ahead.Seen{name: s.seen(name)}}
	if err == nil {
		x, err = s.planOf(name, file)
	}
	for _, of := range slices.Sorted(maps.Keys(x.of)) {
		if of == jobfile.ApprovalsPath(name) { // who approved it changes no plan
			continue
		}
		sum, ok := x.sums[of]
		if !ok {
			sum = sha256.Sum256(nil)
		}
		f.Files = append(f.Files, ahead.File{Name: strings.Clone(of), Seen: x.of[of], Sum: sum})
	}
	if err != nil {
		lines := said(s.withoutPaths(err))
		f.Says, f.No = "does not read: "+lines[0], true
		if n := len(lines) - 1; n > 0 {
			f.Says += fmt.Sprintf(" (and %d more)", n)
		}
	} else {
		a := folder.Said(x.plan)
		f.Says, f.No = a.Says, a.Code != 0
	}
	f.Says = strings.Clone(source.Clip(f.Says, mostSaid))
	return f
}

// foretold puts what came of planning jobs beside where they stand.
func (s *Server) foretold(jobs []folder.Job) {
	for i := range jobs {
		j := &jobs[i]
		j.Comes, j.ComesNo = "", false
		if j.State == folder.NotRead || j.State == folder.Planned || j.State == folder.Finished {
			continue
		}
		if f, ok := s.ahead.Of(j.File); ok {
			j.Comes, j.ComesNo = f.Says, f.No
		}
	}
}

// going is how far the planning is, while it goes on.
func (s *Server) going() string {
	done, of, going := s.ahead.Progress()
	if !going {
		return ""
	} else if of == 0 {
		return "the jobs are looked for"
	}
	return fmt.Sprintf("planned %s of %s", thousands(done), thousands(of))
}

// thousands is a whole number below a million, as 1,000.
func thousands(n int) string {
	if n < 1000 {
		return fmt.Sprint(n)
	}
	return fmt.Sprintf("%d,%03d", n/1000, n%1000)
}
