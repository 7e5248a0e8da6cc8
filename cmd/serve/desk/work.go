package desk

import (
	"errors"
	"fmt"
	"math"

	"borewright/cmd/jobfile"
	"borewright/process"
	"borewright/process/fact"
	"borewright/process/files"
	"borewright/process/plan"
	"borewright/process/qty"
	"borewright/process/schedule"
	"borewright/process/setup"
	"borewright/process/source"
	"borewright/sheets/annex"
	"borewright/sheets/card"
	"borewright/sheets/figure"
	"borewright/sheets/head"
	"borewright/sheets/page"
	"borewright/sheets/words"
)

// Fault is a mistake at a figure, in the words of the loader.
type Fault struct {
	Path string `json:"path"` // as the form has it; "": of the file, or of one that it names
	Says string `json:"says"`
}

// Load reads a file that was changed. open reads the files that it names.
func Load(name string, data []byte, open func(string) ([]byte, error)) (*process.Job, []Fault) {
	job, err := plan.Tooled(files.Job(name, data, open))
	return job, FaultsOf(name, err)
}

// FaultsOf are the mistakes that an error tells of a file, at its figures.
func FaultsOf(name string, err error) (all []Fault) {
	var list source.Errors
	if err == nil {
		return nil
	} else if !errors.As(err, &list) {
		return []Fault{{Says: err.Error()}}
	}
	for _, p := range list {
		says := p.What
		if p.Allowed != "" {
			says += "; " + p.Allowed
		}
		switch {
		case p.File != source.FileName(name):
			all = append(all, Fault{Says: p.Error()})
		case p.Key == "":
			all = append(all, Fault{Says: fmt.Sprintf("line %d: %s", p.Line, says)})
		default:
			all = append(all, Fault{Path: p.Key, Says: says})
		}
	}
	return all
}

// Planned plans a job after what was measured on it.
func Planned(job *process.Job, r *process.Results) *plan.Plan { return jobfile.MakeAfter(job, r) }

// Sketched is a job before it is planned, as much as its drawing needs.
func Sketched(job *process.Job) *plan.Plan {
	p := &plan.Plan{Job: job}
	for _, b := range job.Bores {
		p.Bores = append(p.Bores, plan.Bore{Station: job.Stations[b.Station], Bore: b})
	}
	return p
}

// Picture is the set-up drawing, as SVG; "" where there is too little to draw.
func Picture(p *plan.Plan) string {
	f := figure.Setup(head.Of(p))
	if f == nil || len(f.Items) == 0 || f.Items[0].Scene == nil {
		return ""
	}
	return f.Items[0].Scene.SVG("setup")
}

// Passes are the passes of one visit.
type Passes struct {
	Title string
	Table *page.Table
}

// PassesOf are the pass tables of a plan, a visit each; reasons say what stops it.
func PassesOf(p *plan.Plan) (all []Passes, reasons []string) {
	b := &annex.Annex{Hand: card.Hand{Head: head.Of(p)}}
	for _, r := range p.Reasons {
		reasons = append(reasons, b.Words.Sentence(r.What))
	}
	for _, x := range p.Bores {
		for k, v := range x.Visits {
			if len(v.Passes) == 0 {
				continue
			}
			title := x.Station.Name + head.Called(x, k)
			if !v.Title.None() {
				title += ": " + b.Words.Say(v.Title)
			}
			all = append(all, Passes{title, b.PassTable(v, true)})
		}
	}
	return all, reasons
}

// Figures are what one looks at first when a figure moves.
type Figures struct {
	Spring, Quiet, Time, Chance string
}

const none = "no plan"

// FiguresOf are those of a plan: the spring of the last passes at the most, how near the
// loudest of all is to chatter, the time of all, and the least chance to land on size.
func FiguresOf(p *plan.Plan) Figures {
	if p == nil || !p.Feasible {
		return Figures{none, none, none, none}
	}
	if len(p.Bores) == 0 {
		return Figures{"finished", "finished", "finished", "finished"}
	}
	var spring qty.Length
	loud, chance := setup.Stability{Margin: [2]float64{math.Inf(1), math.Inf(1)}}, math.Inf(1)
	for _, x := range p.Bores {
		for _, v := range x.Visits {
			for _, q := range v.Passes {
				if q.Stability.Margin[0] < loud.Margin[0] {
					loud = q.Stability
				}
			}
			if n := len(v.Passes); n > 0 && v.Part != schedule.Roughing {
				spring = max(spring, v.Passes[n-1].Spring)
			}
			if v.Budget != nil {
				chance = min(chance, v.Budget.Chance)
			}
		}
	}
	u := p.Job.Units
	f := Figures{Spring: "none", Quiet: "quiet", Chance: "not drawn", Time: qty.KindTime.Say(p.Minutes)}
	if spring != 0 {
		f.Spring = u.FormatFine(spring) + " " + u.String()
	}
	if !math.IsInf(loud.Margin[0], 1) {
		f.Quiet = fmt.Sprintf("%s, %s to %s × the chip", words.In(u).Say(fact.New(loud.Chatter())), times(loud.Margin[0]), times(loud.Margin[1]))
	}
	if !math.IsInf(chance, 1) {
		f.Chance = qty.KindChance.Say(chance)
	}
	return f
}

// times is how many times as wide, to two decimals; nobody cuts a chip a hundred times as wide.
func times(x float64) string {
	if x >= 99 {
		return "over 99"
	}
	return fmt.Sprintf("%.2f", x)
}

// Move is one of the figures before and after.
type Move struct {
	Name, Old, New string
}

// Moves hold new figures beside old ones.
func Moves(was, now Figures) []Move {
	return []Move{
		{"Spring of the last pass", was.Spring, now.Spring},
		{"Quiet, at the loudest pass", was.Quiet, now.Quiet},
		{"Time, stops included", was.Time, now.Time},
		{"Chance to land on size", was.Chance, now.Chance},
	}
}
