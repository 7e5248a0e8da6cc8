package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// verb runs a command and gives what it prints; the exit code must be the one wanted.
func verb(t *testing.T, want int, args ...string) string {
	t.Helper()
	var out, errs strings.Builder
	if code := run(args, strings.NewReader(""), &out, &errs); code != want {
		t.Fatalf("%q: exit code %d, want %d\n%s%s", args, code, want, out.String(), errs.String())
	}
	return out.String() + errs.String()
}

// An approval stands in the record and in the list of jobs until what was approved is changed;
// what is measured does not touch it; taken back it is shown as taken back.
func TestApprovalStandsInTheRecord(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(filepath.Join("..", "..", "testdata", "jobs", "slip-winch"))); err != nil {
		t.Fatal(err)
	}
	job := filepath.Join(dir, "job.toml")
	holds := func(why, want string, stands bool) {
		t.Helper()
		code := exitNo
		if stands {
			code = exitDone
		}
		said, rec := verb(t, code, "approve", job), strings.Join(strings.Fields(verb(t, exitNo, "record", job)), " ")
		if !strings.Contains(said, want) || !strings.Contains(rec, want) || strings.Contains(rec, "NOT APPROVED") == stands {
			t.Errorf("%s: %q does not stand there:\n%s\n%s", why, want, said, rec)
		}
		var doc struct {
			Approvals []struct {
				By     string
				Stands bool
				Lapsed []string
			}
		}
		if err := json.Unmarshal([]byte(verb(t, exitNo, "record", job, "--json")), &doc); err != nil {
			t.Fatal(err)
		}
		if n := len(doc.Approvals); n == 0 || doc.Approvals[n-1].Stands != stands || len(doc.Approvals[n-1].Lapsed) > 0 == stands {
			t.Errorf("%s: %+v", why, doc)
		}
		if list := verb(t, exitDone, "jobs", dir); strings.Contains(list, "approved by R. Dale") != stands || strings.Contains(list, "approval lapsed") == stands {
			t.Errorf("%s: the list says\n%s", why, list)
		}
	}
	if said := verb(t, exitNo, "approve", job); !strings.Contains(said, "Nobody") {
		t.Error(said)
	}
	if strings.Contains(verb(t, exitNo, "record", job), "pproved") || strings.Contains(verb(t, exitDone, "jobs", dir), "pprov") {
		t.Error("of what nobody approved something is said")
	}
	verb(t, exitDone, "approve", job, "--by", "R. Dale", "--against", job, "--remark", "bar seen")
	holds("as it was approved", "revision A by R. Dale", true)
	holds("as it was approved", "compared with job.toml; bar seen", true)
	verb(t, exitDone, "measured", job, "--pass", "1", "--size", "near@12=90.338", "--marked", "12", "--sure")
	holds("measured", "revision A by R. Dale", true)
	data, err := os.ReadFile(job)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(job, append(data, "# looked at again\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	holds("a remark in the job file", "LAPSED: the job file was changed", false)
	if err := os.WriteFile(job, data, 0o644); err != nil {
		t.Fatal(err)
	}
	holds("put back", "revision A by R. Dale", true)
	verb(t, exitDone, "approve", job, "--by", "S. Moor", "--withdraw")
	holds("withdrawn", "LAPSED: withdrawn by S. Moor", false)
	verb(t, exitWrong, "approve", job, "--by", "S. Moor", "--withdraw")
	verb(t, exitDone, "approve", job, "--by", "R. Dale")
	holds("approved again", "revision A by R. Dale", true)
	verb(t, exitWrong, "approve", job, "--remark", "x")
	verb(t, exitWrong, "approve", job, "--by", strings.Repeat("x", 61))
	verb(t, exitWrong, "approve", job, "--by", "a\u202eb")
}

// A machine file of the shop's own is part of what was approved; a job that cannot be cut is not
// approved at all.
func TestApprovalIsOfNamedFiles(t *testing.T) {
	dir := t.TempDir()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "slip-winch", "job.toml"))
	if err != nil {
		t.Fatal(err)
	}
	mill, job := filepath.Join(dir, "mill.toml"), filepath.Join(dir, "job.toml")
	verb(t, exitDone, "new", mill, "--machine", "cnc-110mm")
	text := strings.Replace(string(data), `"cnc-110mm"`, `"mill.toml"`, 1)
	if err := os.WriteFile(job, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	verb(t, exitDone, "approve", job, "--by", "R. Dale")
	verb(t, exitDone, "approve", job)
	was, err := os.ReadFile(mill)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(mill, append(was, "\n# another remark\n"...), 0o644); err != nil {
		t.Fatal(err)
	}
	if said := verb(t, exitNo, "approve", job); !strings.Contains(said, "mill.toml was changed") {
		t.Error(said)
	}
	if said := verb(t, exitDone, "jobs", dir); !strings.Contains(said, "approval lapsed") {
		t.Error(said)
	}
	cannot := strings.Replace(text, "length = 190 }", "length = 900 }", 1)
	if err := os.WriteFile(job, []byte(cannot), 0o644); err != nil || cannot == text {
		t.Fatal(err)
	}
	if said := verb(t, exitWrong, "approve", job, "--by", "R. Dale"); !strings.Contains(said, "no feasible plan") {
		t.Error(said)
	}
}
