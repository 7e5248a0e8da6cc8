package serve

import (
	"bytes"
	"context"
	"io"
	"io/fs"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"borewright/cmd/folder"
)

// filesIn are the files of a folder with their bytes.
func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			var data []byte
			data, err = os.ReadFile(path)
			all[path] = string(data)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// rowOf is what the list says of a job, by its address.
func rowOf(page, file string) string {
	_, row, _ := strings.Cut(page, `href="/mill/`+file+`"`)
	row, _, _ = strings.Cut(row, "</a>")
	return row
}

// TestPlannedInTheBackground starts the server as the command does: it plans what is not planned,
// says how far it is until all is done, answers meanwhile, plans anew what has changed, writes
// nothing, and ends.
func TestPlannedInTheBackground(t *testing.T) {
	t.Parallel()
	dir := shop(t)
	job, err := os.ReadFile(filepath.Join(dir, "SW-58.toml"))
	if err != nil {
		t.Fatal(err)
	}
	put := func(name string, data []byte) {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	for _, n := range []string{"1", "2", "3"} {
		put("SW-6"+n+".toml", bytes.Replace(job, []byte("SW-58"), []byte("SW-6"+n), 1))
	}
	put("wrong.toml", bytes.Replace(bytes.Replace(job, []byte("SW-58"), []byte("SW-70"), 1), []byte("number "), []byte("hue = 4\nnumber "), 1))
	made := folder.Job{Path: filepath.Join(dir, "SW-61.toml")}
	if a := (folder.Maker{Out: filepath.Join(dir, "out")}).Make(&made); a.Code != 0 {
		t.Fatal(a.Says)
	}
	before := filesIn(t, dir)

	s, err := New(dir, Options{})
	if err != nil {
		t.Fatal(err)
	}
	l, err := Options{}.Listen()
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l, io.Discard) }()
	web, c := "http://"+l.Addr().String(), client(t)
	code, first, _ := get(t, c, web+"/")
	if code != http.StatusOK || !strings.Contains(first, `id="going"`) {
		t.Errorf("the first page says nothing of how far it is: %d\n%s", code, first)
	}
	if code, text, _ := get(t, c, web+"/mill/winch/WG-204.toml"); code != http.StatusOK || !strings.Contains(text, "Set the cutter") {
		t.Errorf("a page while it works: %d", code)
	}
	all := func() string {
		for range 400 {
			if _, text, _ := get(t, c, web+"/"); !strings.Contains(text, `id="going"`) {
				return text
			}
			time.Sleep(50 * time.Millisecond)
		}
		t.Fatalf("it does not end: %s", s.going())
		return ""
	}
	page := all()
	for _, file := range []string{"SW-58.toml", "SW-62.toml", "winch/WG-204.toml"} {
		want := folder.Plan(&folder.Job{Path: filepath.Join(dir, file)})
		if row := rowOf(page, file); want.Code != 0 || !strings.Contains(row, ">"+want.Says+"<") || !strings.Contains(row, "not made") {
			t.Errorf("%s: %q, the command says %q", file, row, want.Says)
		}
	}
	if row := rowOf(page, "SW-61.toml"); !strings.Contains(row, ">planned<") || strings.Contains(row, "comes") {
		t.Errorf("the one that make has written: %q", row)
	}
	if row := rowOf(page, "wrong.toml"); !strings.Contains(row, "does not read: wrong.toml:") || !strings.Contains(row, "hue") || strings.Contains(row, dir) {
		t.Errorf("the one that does not read: %q", row)
	}
	if done, of, _ := s.ahead.Progress(); done != 6 || of != 6 {
		t.Errorf("%d of %d", done, of)
	}
	if len(s.plans) != 1 { // the one whose page was asked for
		t.Errorf("%d plans are held", len(s.plans))
	}
	if _, text, _ := get(t, c, web+"/?find=not+made+passes"); strings.Count(text, "/mill/") != 4 {
		t.Errorf("found by what they come to: %s", text)
	}
	if now := filesIn(t, dir); !maps.Equal(now, before) {
		t.Error("the folder has changed")
	}
	put("SW-62.toml", []byte(before[filepath.Join(dir, "SW-62.toml")]+"\n[[station]]\n")) // as one half written
	for i := 0; ; i++ {
		if f, ok := s.ahead.Of("SW-62.toml"); ok && f.No && strings.Contains(f.Says, "SW-62.toml:") {
			break
		} else if i == 400 {
			t.Fatalf("changed and not planned anew: %+v", f)
		}
		time.Sleep(50 * time.Millisecond)
	}
	if page = all(); !strings.Contains(rowOf(page, "SW-62.toml"), "does not read") {
		t.Errorf("changed: %q", rowOf(page, "SW-62.toml"))
	}
	stop()
	select {
	case err := <-ended:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(20 * time.Second):
		t.Error("the server does not end")
	}
	s.Close()
}
