package verify

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"borewright/post/rs274"
	"borewright/post/verify/mouth"
	"borewright/post/verify/remark"
	"borewright/post/verify/script"
	"borewright/post/verify/through"
	"borewright/process/plan"
	"borewright/process/schedule"
)

// Identify finds which visit of the plan a program belongs to, by what it cuts:
// where its feeds begin and end, at what feed and speed. Two visits that cut
// alike (a housing, then the sleeve in it) are told apart by the settings in
// the comments of the stops and the program number, then by the names in the other
// comments. Where nothing that it cuts fits, the names alone tell it. ok is
// false where nothing fits, or two fit equally well: then the caller must say.
// bore and visit are indices as Check takes them.
func Identify(program []byte, p *plan.Plan) (bore, visit int, ok bool) {
	if p == nil || p.Job == nil || p.Job.Machine == nil || p.Job.Machine.Control == nil {
		return 0, 0, false
	}
	if several, _ := Several(program, p); several { // the first that it holds
		for i := range p.Bores {
			for k := range p.Bores[i].Visits {
				if slices.Contains(script.Numbers(program), script.NumberOf(p, i, k)) {
					return i, k, true
				}
			}
		}
	}
	seen := look(program, p)
	best, second := 0.0, 0.0
	for i := range p.Bores {
		for k := range p.Bores[i].Visits {
			bores, first := through.Bores(p, i, k)
			if first != [2]int{i, k} {
				continue // cut in the program of another
			}
			s := seen.score(bores)
			if n := script.NumberOf(p, i, k); s > 0 && n > 0 && n == seen.number {
				s += 30
			}
			switch {
			case s > best:
				best, second, bore, visit = s, best, i, k
			case s > second:
				second = s
			}
		}
	}
	if best > 0 {
		return bore, visit, best > second
	}
	return seen.named(p)
}

// named finds the visit that the remarks name, bore and visit: a program that does not read
// may cut nothing, and say all the same whose it is.
func (s *content) named(p *plan.Plan) (bore, visit int, ok bool) {
	for i := range p.Bores {
		for k := range p.Bores[i].Visits {
			name := strings.ToUpper(plain(p.Bores[i].Station.Name))
			if name == "" || !strings.Contains(s.plain, fmt.Sprintf("BORE %s, VISIT %d ", name, p.Bores[i].Visits[k].N)) {
				continue
			}
			if ok {
				return 0, 0, false
			}
			bore, visit, ok = i, k, true
		}
	}
	return bore, visit, ok
}

// content is what a program cuts, and says.
type content struct {
	cuts   []Cut
	sizes  []remark.Size // that its stops state
	number int           // O word
	plain  string
	f      *follower // for comparing as Check does
}

// Enough of a program to know it by.
const (
	cutsSeen = 1000
	textSeen = 1 << 16
)

func look(program []byte, p *plan.Plan) *content {
	c := p.Job.Machine.Control
	d := script.Dialect(c)
	d.DeleteOn = c.SpringAgain != 0
	letter := byte(p.Job.FeedLetter())
	program = mouth.Without(program)
	s := &content{f: &follower{job: p.Job, control: c, u: c.Units, half: script.LeastInput(c)/2 + 1}}
	for _, said := range script.ReadWords(program, d, p.Job, false).Remarks.Stops {
		s.sizes = append(s.sizes, remark.Read(said).Sizes...)
	}
	var text strings.Builder
	axis := rs274.Z
	if letter == 'W' {
		axis = rs274.W
	}
	open := false
	_, _ = rs274.Replay(bytes.NewReader(program), d, func(e rs274.Event) error {
		s.number = e.Program
		if e.Kind == rs274.Message {
			if text.Len() < textSeen {
				text.WriteString(strings.ToUpper(e.Text) + " ")
			}
			return nil
		}
		from, to := -e.From.Linear(letter), -e.To.Linear(letter)
		if e.Kind != rs274.Move || e.Motion != rs274.Feed || to <= from || !e.From.Has(axis) {
			open = false
			return nil
		}
		if open {
			s.cuts[len(s.cuts)-1].To = to
			return nil
		}
		if len(s.cuts) == cutsSeen {
			return errEnough
		}
		open = true
		s.cuts = append(s.cuts, Cut{From: from, To: to, Feed: perRev(&e), Speed: e.Speed})
		return nil
	})
	s.plain = text.String()
	return s
}

// score weighs a visit against the program: a cut at the planned depths counts
// most, then its feed and speed, then the settings stated at the stops, then
// names. Without a single cut or setting of its own a visit scores nothing.
func (s *content) score(bores []through.Bore) float64 {
	f, v := s.f, through.Whole(bores)
	feeds := through.New(bores, through.Set{}).Feeds()
	score, each := 0.0, len(feeds)
	for n, c := range s.cuts {
		i, feed := n/each, feeds[n%each]
		if each == 1 {
			feed[1] = endOf(v, i)
		}
		if !f.atDepth(c.From, feed[0]) || !f.atDepth(c.To, feed[1]) {
			score -= 20
			continue
		}
		score += 100
		if i < len(v.Passes) {
			q := &v.Passes[i]
			if d := float64(c.Feed-q.Feed) / float64(max(q.Feed, 1)); d > -0.05 && d < 0.05 {
				score += 10
			}
			if d := c.Speed - float64(q.Speed); d >= -0.5 && d <= 0.5 {
				score += 10
			}
		}
	}
	if n := each*len(v.Passes) - len(s.cuts); n != 0 {
		score -= 5 * float64(max(n, -n))
	}
	for _, n := range s.sizes {
		if slices.ContainsFunc(v.Passes, func(p schedule.Pass) bool { return f.states(n, p.Setting) }) {
			score += 30
		}
	}
	if score <= 0 {
		return 0
	}
	lands := "FINISH SIZE" // a rough and a finish may cut alike
	if v.Part == schedule.Roughing {
		lands = "ROUGH SIZE"
	}
	for _, name := range []string{bores[0].Station.Name, fmt.Sprintf("VISIT %d ", v.N), lands} {
		if name != "" && strings.Contains(s.plain, strings.ToUpper(plain(name))) {
			score += 3
		}
	}
	return score
}

// plain is text as a comment can hold it.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if r < ' ' || r > '~' || r == '(' || r == ')' || r == '%' {
			return -1
		}
		return r
	}, s)
}
