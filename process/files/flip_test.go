package files

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"borewright/process"
	"borewright/process/slow"
)

// A results file in which one byte is not what was written: it is refused, or what is read of
// it are entries as they were written. The last may be missing, and is said to be then; none
// before it is.
func TestEveryFlippedByte(t *testing.T) {
	job := resultsJob(t)
	var whole []byte
	var wrote []process.Measured
	for _, id := range []string{"0a1b2c3d4e5f", "1b2c3d4e5f60", "2c3d4e5f6071"} {
		m := entry(id)
		m.Remark = "of " + id
		whole = append(whole, Entry(job, &m)...)
		m.Place = ""
		wrote = append(wrote, m)
	}
	rng := rand.New(rand.NewPCG(19, 8))
	flips := slow.Rounds(t, "flipped bytes", 2000, 300, 255*len(whole))
	read, torn := 0, 0
	for n := range flips {
		at, by := rng.IntN(len(whole)), byte(1+rng.IntN(255))
		if slow.Long() { // every byte, in every way
			at, by = n/255, byte(1+n%255)
		}
		if n == 0 && !slow.Long() { // the id as a remark: the entry would be one by hand
			at = strings.Index(string(whole), "id = ")
			by = 'i' ^ '#'
		}
		data := append([]byte(nil), whole...)
		data[at] ^= by
		why := fmt.Sprintf("byte %d, %q for %q", at, data[at], whole[at])
		got, err := Results("", data, job)
		if err != nil {
			wellTold(t, err)
			continue
		}
		read++
		want := wrote
		if got.Torn > 0 {
			torn++
			want = wrote[:2]
		}
		for i := range got.Entries {
			got.Entries[i].Place = ""
		}
		if diff := cmp.Diff(want, got.Entries); diff != "" {
			t.Errorf("%s: read all the same (-written +read):\n%.600s", why, diff)
		}
		if kept, _ := SplitTorn(data); got.Torn > 0 && !strings.Contains(string(kept), "of 1b2c3d4e5f60") {
			t.Errorf("%s: more than the last is cut off", why)
		}
		if t.Failed() {
			return
		}
	}
	t.Logf("%d flips: %d read, %d of them with the last entry torn", flips, read, torn)
}
