package serve

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"borewright/cmd/jobfile/kept"
	"borewright/process/slow"
)

// TestMain runs a server as a process of its own where it is told to.
func TestMain(m *testing.M) {
	if dir := os.Getenv("SERVE_THIS"); dir != "" {
		s, err := New(dir, Options{})
		if err == nil {
			l, e := Options{}.Listen()
			if err = e; err == nil {
				fmt.Println(l.Addr())
				err = s.Serve(context.Background(), l, os.Stderr)
			}
		}
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	kept.Plans()
	os.Exit(m.Run())
}

// started is a server as a process, and its address.
func started(t *testing.T, dir string) (*exec.Cmd, string) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), "SERVE_THIS="+dir)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { cmd.Process.Kill() })
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	return cmd, "http://" + strings.TrimSpace(line)
}

// TestKilledServer kills the server with no warning while three screens enter: what any of them
// was told is kept is in the file, and what is sent again to the next server is there once.
func TestKilledServer(t *testing.T) {
	t.Parallel() // it waits more than it works
	for round := range slow.Rounds(t, "servers killed while three screens enter", 6, 1) {
		dir := shop(t)
		cmd, at := started(t, dir)
		var mu sync.Mutex
		kept, sentIDs := map[string]bool{}, []sent{}
		var screens sync.WaitGroup
		for n := range 3 {
			screens.Go(func() {
				c := &http.Client{Timeout: 20 * time.Second}
				for i := range 50 {
					e := seat(fmt.Sprintf("%02x%02x%08x", n, round, i))
					e.Sure = true
					mu.Lock()
					sentIDs = append(sentIDs, e)
					mu.Unlock()
					data, _ := json.Marshal(e)
					r, err := c.Post(at+"/enter/SW-58.toml", "application/json", bytes.NewReader(data))
					if err != nil {
						return
					}
					var a answer
					err = json.NewDecoder(r.Body).Decode(&a)
					r.Body.Close()
					if err != nil {
						return
					}
					if !a.Kept {
						t.Errorf("%+v", a)
						return
					}
					mu.Lock()
					kept[e.ID] = true
					mu.Unlock()
				}
			})
		}
		time.Sleep(time.Duration(300+rand.IntN(500)) * time.Millisecond)
		cmd.Process.Kill()
		cmd.Wait()
		screens.Wait()
		count := func() map[string]int {
			n := map[string]int{}
			for _, m := range entriesOf(t, dir) {
				n[m.ID]++
			}
			return n
		}
		there := count()
		for id := range kept {
			if there[id] != 1 {
				t.Errorf("round %d: a screen was told that %s is kept, and it is there %d times", round, id, there[id])
			}
		}
		_, at = started(t, dir)
		for _, e := range sentIDs {
			if code, a := post(t, http.DefaultClient, at+"/enter/SW-58.toml", e); !a.Kept {
				t.Errorf("round %d: sent again: %d %+v", round, code, a)
			}
		}
		there = count()
		for _, e := range sentIDs {
			if there[e.ID] != 1 {
				t.Errorf("round %d: %s is there %d times", round, e.ID, there[e.ID])
			}
		}
		t.Logf("round %d: %d entered, %d told before the server was killed", round, len(there), len(kept))
	}
}
