package ahead

import (
	"context"
	"crypto/sha256"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"
)

// shop is a folder in memory: bytes of files, and how often each was planned.
type shop struct {
	sync.Mutex
	bytes   map[string]string
	touched map[string]int
	planned map[string]int
	order   []string
	hang    chan struct{}
}

func newShop(jobs int) *shop {
	s := &shop{bytes: map[string]string{}, touched: map[string]int{}, planned: map[string]int{}, hang: make(chan struct{})}
	for i := range jobs {
		name := fmt.Sprintf("%05d.toml", i)
		s.order, s.bytes[name] = append(s.order, name), name
	}
	return s
}

func (s *shop) work() Work {
	read := func(file string) []byte {
		s.Lock()
		defer s.Unlock()
		return []byte(s.bytes[file])
	}
	seen := func(file string) Seen {
		s.Lock()
		defer s.Unlock()
		return Seen{int64(len(s.bytes[file])), time.Unix(int64(s.touched[file]), 0)}
	}
	return Work{
		Jobs: func() ([]string, int, error) {
			s.Lock()
			defer s.Unlock()
			return append([]string{}, s.order...), 3, nil
		},
		Plan: func(file string) Found {
			f := Found{Files: []File{{file, seen(file), sha256.Sum256(read(file))}}}
			s.Lock()
			s.planned[file]++
			f.Says = fmt.Sprintf("%s for the %d. time", s.bytes[file], s.planned[file])
			text := s.bytes[file]
			s.Unlock()
			if text == "hangs" {
				<-s.hang
			} else if text == "fails" {
				panic("no such cutter")
			}
			return f
		},
		Seen: seen, Read: read,
	}
}

func (s *shop) set(file, text string) {
	s.Lock()
	defer s.Unlock()
	s.bytes[file] = text
	s.touched[file]++
}

// until waits for something to be so; a test that waits in vain says for what.
func until(t *testing.T, what string, so func() bool) {
	t.Helper()
	for range 2000 {
		if so() {
			return
		}
		time.Sleep(5 * time.Millisecond)
	}
	t.Fatal("in vain: " + what)
}

// run has a worker work until the test ends, and holds that it does end.
func run(t *testing.T, w *Worker) {
	t.Helper()
	w.pause = time.Millisecond
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan struct{})
	go func() { w.Run(ctx); close(ended) }()
	t.Cleanup(func() {
		stop()
		select {
		case <-ended:
		case <-time.After(10 * time.Second):
			t.Error("the worker does not end")
		}
	})
}

func done(w *Worker) func() bool {
	return func() bool {
		n, of, going := w.Progress()
		return of > 0 && n == of && !going
	}
}

// All are planned, each once; one that has other bytes is planned anew and no other; one that was
// only touched is not; one that is gone is forgotten.
func TestChangedIsPlannedAnew(t *testing.T) {
	s := newShop(40)
	w := New(s.work())
	if _, _, going := w.Progress(); going {
		t.Error("it goes on before it has begun")
	}
	run(t, w)
	until(t, "all planned", done(w))
	if n, of, _ := w.Progress(); n != 43 || of != 43 {
		t.Errorf("%d of %d", n, of)
	}
	s.set("00007.toml", "00008.toml") // touched and as long as before
	s.set("00009.toml", "00009.toml") // touched alone
	until(t, "the changed one", func() bool {
		f, _ := w.Of("00007.toml")
		return f.Says == "00008.toml for the 2. time"
	})
	s.Lock()
	s.order = s.order[1:]
	s.Unlock()
	until(t, "the one that is gone", func() bool { _, ok := w.Of("00000.toml"); return !ok && done(w)() })
	s.Lock()
	defer s.Unlock()
	for file, n := range s.planned {
		if want := map[bool]int{true: 2, false: 1}[file == "00007.toml"]; n != want {
			t.Errorf("%s was planned %d times", file, n)
		}
	}
	if n, of, _ := w.Progress(); n != 42 || of != 42 {
		t.Errorf("%d of %d", n, of)
	}
}

// No more is kept than the bound, however many jobs there are, and the work ends all the same.
func TestFewRecords(t *testing.T) {
	s := newShop(150)
	w := New(s.work())
	w.most = 100
	run(t, w)
	until(t, "all planned", done(w))
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.known) != 100 {
		t.Errorf("%d records", len(w.known))
	}
}

// Jobs that hang or fail say so themselves, and the others are planned. While two hang, no third
// is begun; what hangs does not keep the server from ending.
func TestHangsAndFails(t *testing.T) {
	s := newShop(6)
	s.set("00001.toml", "hangs")
	s.set("00003.toml", "fails")
	w := New(s.work())
	w.longest = 20 * time.Millisecond
	run(t, w)
	until(t, "all planned", done(w))
	for file, want := range map[string]string{"00001.toml": "took longer", "00003.toml": "no such cutter"} {
		if f, _ := w.Of(file); !f.No || !strings.Contains(f.Says, want) {
			t.Errorf("%s: %+v", file, f)
		}
	}
	if f, _ := w.Of("00005.toml"); f.No || f.Says == "" {
		t.Errorf("the last: %+v", f)
	}
	s.set("00002.toml", "hangs")
	until(t, "the second that hangs", func() bool { f, _ := w.Of("00002.toml"); return f.No })
	s.set("00004.toml", "another text")
	time.Sleep(40 * time.Millisecond)
	if _, ok := w.Of("00004.toml"); ok && done(w)() {
		t.Error("a third was begun while two hang")
	}
	close(s.hang)
	until(t, "the rest", func() bool { f, _ := w.Of("00004.toml"); return strings.HasPrefix(f.Says, "another") })
}

// A request goes first: nothing is begun while it is being answered. One that does not end holds
// the work up for a while alone.
func TestRequestsGoFirst(t *testing.T) {
	s := newShop(2)
	w := New(s.work())
	first, second := w.Asked(), w.Asked()
	first()
	w.patience = time.Second
	run(t, w)
	time.Sleep(50 * time.Millisecond)
	if n, of, going := w.Progress(); n != 3 || of != 5 || !going {
		t.Errorf("%d of %d, %v", n, of, going)
	}
	second()
	until(t, "all planned", done(w))
	last := w.Asked()
	s.set("00001.toml", "in spite of it")
	until(t, "planned beside a request without end", func() bool {
		f, _ := w.Of("00001.toml")
		return strings.HasPrefix(f.Says, "in spite")
	})
	last()
}
