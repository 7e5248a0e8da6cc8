package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"borewright/process/slow"
	"borewright/process/source"
)

// bettered is plan --better --json as far as ways go.
type bettered struct {
	Sum  string `json:"check_sum"`
	Ways []struct {
		Change  string
		Write   []string
		Passes  int
		Minutes float64
		Chance  float64
		Chatter struct {
			Voice string
			Least float64 `json:"margin_least"`
		}
	}
}

// The finish of the lock winch sings. What would quieten it is named with the keys to
// write, as JSON and in words; the job with those keys of a nose and a bar written is
// planned as it was promised. The bar is at least ten times as quiet by the best of them.
func TestBetterLockWinch(t *testing.T) {
	slow.Test(t, "searches what would quieten the finish of the winch")
	t.Chdir("../..")
	ask := func(job string, args ...string) string {
		var out, errs bytes.Buffer
		if code := run(append([]string{"plan", job}, args...), strings.NewReader(""), &out, &errs); code != exitDone {
			t.Fatalf("%v: %d %s", args, code, errs.String())
		}
		return out.String()
	}
	const winch = "testdata/jobs/lock-winch/job.toml"
	var plain, b bettered
	if err := json.Unmarshal([]byte(ask(winch, "--better", "--json")), &b); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(ask(winch, "--json")), &plain); err != nil || b.Sum != plain.Sum || plain.Ways != nil {
		t.Errorf("check sum %s, without the ways %s: %v", b.Sum, plain.Sum, err)
	}
	told, best, now := strings.Join(strings.Fields(ask(winch, "--better")), " "), 0.0, leastMargin(t, ask(winch, "--json"))
	for _, w := range b.Ways {
		if !strings.Contains(told, w.Change) || len(w.Write) == 0 || !strings.Contains(told, source.Counted(strings.Join(w.Write, "; "))) {
			t.Errorf("%s (%v) is not in the words", w.Change, w.Write)
		}
		best = max(best, w.Chatter.Least)
	}
	if len(b.Ways) != 5 || best < 10*now {
		t.Errorf("%d ways, from %.3f to %.3f at the best", len(b.Ways), now, best)
	}
	// The first: a smaller nose and a fatter bar.
	w := b.Ways[0]
	keys := regexp.MustCompile(`^cutter\.nose_radius = (\S+)\nbar\.steps\[1\]\.diameter = (\S+)$`).FindStringSubmatch(strings.Join(w.Write, "\n"))
	if keys == nil {
		t.Fatalf("first %v", w.Write)
	}
	text, err := os.ReadFile(winch)
	if err != nil {
		t.Fatal(err)
	}
	changed := strings.Replace(strings.Replace(string(text), "nose_radius = 0.031", "nose_radius = "+keys[1], 1), "diameter = 2.25,", "diameter = "+keys[2]+",", 1)
	job := filepath.Join(t.TempDir(), "job.toml")
	if err := os.WriteFile(job, []byte(changed), 0o666); err != nil {
		t.Fatal(err)
	}
	if got := leastMargin(t, ask(job, "--json")); got != w.Chatter.Least || got < 5*now {
		t.Errorf("written so the bar stands %.3f times the cut, promised %.3f; now %.3f", got, w.Chatter.Least, now)
	}
}

// leastMargin is the least of all passes of a plan.json.
func leastMargin(t *testing.T, doc string) float64 {
	t.Helper()
	least := 1e9
	for _, m := range regexp.MustCompile(`"margin_least": ([0-9.]+)`).FindAllStringSubmatch(doc, -1) {
		var x float64
		if err := json.Unmarshal([]byte(m[1]), &x); err != nil {
			t.Fatal(err)
		}
		least = min(least, x)
	}
	return least
}
