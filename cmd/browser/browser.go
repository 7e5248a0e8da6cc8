// Package browser drives a browser in tests: it starts one, and tries the rules of axe-core on
// what it shows. Only tests import it.
package browser

import (
	"context"
	"encoding/json"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// Program finds one of the programs that look at pages from outside, or skips the test where the
// gate (CI) does not demand it. what says what they are of.
func Program(t testing.TB, what string, names ...string) string {
	t.Helper()
	for _, n := range names {
		if path, err := exec.LookPath(n); err == nil {
			return path
		}
	}
	if os.Getenv("CI") != "" {
		t.Fatalf("none of %s is installed (%s)", strings.Join(names, ", "), what)
	}
	t.Skipf("none of %s is installed (%s): the pages are not looked at from outside", strings.Join(names, ", "), what)
	return ""
}

// Start starts a browser that ends with the test.
func Start(t testing.TB) context.Context {
	t.Helper()
	path := Program(t, "a browser, Debian package chromium-headless-shell or chromium", "chromium-headless-shell", "chromium", "chromium-browser", "google-chrome")
	// A browser that is ending still writes to its profile: not in t.TempDir,
	// which fails when it cannot be emptied.
	profile, err := os.MkdirTemp("", "profile")
	if err != nil {
		t.Fatal(err)
	}
	alloc, stop := chromedp.NewExecAllocator(context.Background(),
		chromedp.ExecPath(path), chromedp.Headless, chromedp.NoSandbox, chromedp.DisableGPU, chromedp.NoFirstRun,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-background-networking", true),
		chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
		chromedp.UserDataDir(profile))
	ctx, done := chromedp.NewContext(alloc)
	t.Cleanup(func() {
		done()
		stop()
		os.RemoveAll(profile)
	})
	if err := chromedp.Do(ctx); err != nil { // starts it; no timeout here, it would end the browser
		t.Fatal(err)
	}
	return ctx
}

// Rules are those of axe-core, from the file that AXE_CORE names; "" where there is none.
func Rules(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile(os.Getenv("AXE_CORE"))
	if err != nil {
		t.Log("AXE_CORE names no axe.min.js (npm package axe-core): its rules are not tried")
	}
	return string(data)
}

// Violations are what the rules find on the page that is shown. where and options are those of
// axe.run, as JavaScript has them.
func Violations(ctx context.Context, rules, where, options string) ([]string, error) {
	has, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`"axe" in window`))
	if err == nil && !has {
		_, err = chromedp.Run(ctx, chromedp.Evaluate[bool](rules+"\n;true"))
	}
	if err != nil {
		return nil, err
	}
	out, err := chromedp.Run(ctx, chromedp.Evaluate[string](
		`axe.run(`+where+`, { resultTypes: ["violations"], ...`+options+` }).then(r => JSON.stringify(r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.length + ", as " + v.nodes[0].html.slice(0, 160))))`,
		chromedp.EvalAwaitPromise))
	if err != nil {
		return nil, err
	}
	var found []string
	err = json.Unmarshal([]byte(out), &found)
	return found, err
}
