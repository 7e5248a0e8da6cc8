package files

import (
	"os"
	"strings"
	"testing"
)

// The sound jobs that the tables of bad files start from: reboreJob is one in inches, sleeveJob one in
// millimetres, of a blind bore that is sleeved. The tests of process/doubt start from them too.
var reboreJob, sleeveJob = baseJob("rebore"), baseJob("sleeve")

func baseJob(name string) string {
	data, err := os.ReadFile("../../testdata/process/base/" + name + ".toml")
	if err != nil {
		panic(err)
	}
	return string(data)
}

// edit replaces each old text by the new one that follows it. Every old text
// must stand in the file, so that a row cannot go stale unseen.
func edit(t *testing.T, file string, pairs ...string) string {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(file, pairs[i]) {
			t.Fatalf("the file holds no %q to replace", pairs[i])
		}
		file = strings.Replace(file, pairs[i], pairs[i+1], 1)
	}
	return file
}

func TestBaseJobsAreSound(t *testing.T) {
	for _, f := range []string{reboreJob, sleeveJob} {
		if _, err := Job("job.toml", []byte(f), nil); err != nil {
			t.Errorf("%v", err)
		}
	}
}
