package serve

import (
	"net/http"
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"rsc.io/qr"

	"borewright/cmd/serve/links"
)

var (
	svgPath = regexp.MustCompile(`<path d="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)Z"[^>]*fill="#000`)
	svgSize = regexp.MustCompile(`viewBox="0 0 ([\d.]+) ([\d.]+)"`)
)

func number(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestCardWithItsCode asks for the card with its code: what is drawn is the code of the link, module
// by module, with the margin that ISO/IEC 18004 asks for; the link opens this job to read only; and
// the plain card knows nothing of it.
func TestCardWithItsCode(t *testing.T) {
	dir := shop(t)
	s, web := open(t, dir, Options{LAN: true}, nil)
	if len(links.Addresses()) == 0 {
		t.Skip("this machine has no address on a network")
	}
	for _, right := range []string{s.secrets.Write, s.secrets.Read} {
		c := client(t)
		get(t, c, web.URL+"/in/"+right)
		if _, text, _ := get(t, c, web.URL+"/mill/winch/WG-204.toml"); !strings.Contains(text, `href="/card/winch/WG-204.toml?with=code"`) {
			t.Error("the page of the job has no link to the card with its code")
		}
		_, plain, _ := get(t, c, web.URL+"/card/winch/WG-204.toml?as=pdf")
		_, coded, _ := get(t, c, web.URL+"/card/winch/WG-204.toml?as=pdf&with=code")
		if pages := strings.Count(coded, "/Type /Page\n") - strings.Count(plain, "/Type /Page\n"); pages != 1 {
			t.Errorf("%d pages more than the plain card", pages)
		}
		code, text, _ := get(t, c, web.URL+"/card/winch/WG-204.toml?with=code")
		if code != http.StatusOK || !strings.Contains(text, "This job on the shop&#39;s network, to read only") || !strings.Contains(text, `?as=pdf&amp;with=code`) {
			t.Errorf("%d: the page does not say what the code opens", code)
		}
		if strings.Contains(text, s.secrets.Write) || strings.Contains(text, s.secrets.Read) {
			t.Error("the page says a secret in letters")
		}
		at, _ := url.Parse(web.URL)
		link := "http://" + links.Addresses()[0].String() + ":" + at.Port() + "/in/" + s.secrets.Read + "/winch/WG-204.toml"
		drawnAs(t, text, link)
	}
	// What the link does, asked for at the address of the test.
	reader, writer := client(t), client(t)
	get(t, writer, web.URL+"/in/"+s.secrets.Write)
	in := web.URL + "/in/" + s.secrets.Read + "/winch/WG-204.toml"
	for c, want := range map[*http.Client]int{reader: http.StatusForbidden, writer: http.StatusOK} {
		if code, text, _ := get(t, c, in); code != http.StatusOK || !strings.Contains(text, "WG-204 C") || strings.Contains(text, "SW-58") {
			t.Errorf("the link does not open the job: %d", code)
		}
		if code, _ := post(t, c, web.URL+"/enter/SW-58.toml", seat("00000000000d")); code != want {
			t.Errorf("an entry after it: %d, not %d", code, want)
		}
	}
	stay := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	for job, want := range map[string]string{"none.toml": "/", "%2felsewhere.example": "/", "..%2f..%2fsecret.toml": "/", "SW-58.toml": "/mill/SW-58.toml"} {
		if _, _, h := get(t, stay, web.URL+"/in/"+s.secrets.Read+"/"+job); h.Get("Location") != want {
			t.Errorf("%s leads to %q", job, h.Get("Location"))
		}
	}
	if code, _, h := get(t, stay, web.URL+"/in/"+strings.Repeat("a", 26)+"/SW-58.toml"); code != http.StatusForbidden || h.Get("Set-Cookie") != "" {
		t.Errorf("another secret: %d", code)
	}
	_, alone := open(t, dir, Options{}, nil)
	if code, text, _ := get(t, client(t), alone.URL+"/card/SW-58.toml?with=code"); code != http.StatusNotFound || !strings.Contains(text, "--lan") {
		t.Errorf("without a network: %d", code)
	}
	if _, text, _ := get(t, client(t), alone.URL+"/mill/SW-58.toml"); strings.Contains(text, "with=code") {
		t.Error("a link to a code that opens nothing")
	}
}

// drawnAs looks at the middle of each module of the last drawing of a page.
func drawnAs(t *testing.T, text, link string) {
	t.Helper()
	c, err := qr.Encode(link, qr.M)
	if err != nil {
		t.Fatal(err)
	}
	text = text[strings.LastIndex(text, "<svg"):]
	side := number(t, svgSize.FindStringSubmatch(text)[1])
	var all [][4]float64
	for _, m := range svgPath.FindAllStringSubmatch(text, -1) {
		all = append(all, [4]float64{number(t, m[1]), number(t, m[2]), number(t, m[5]), number(t, m[6])})
	}
	n := c.Size + 8 // four modules of margin at each side
	if side/float64(n) < 1 {
		t.Errorf("a module is %.2f mm", side/float64(n))
	}
	for row := range n {
		for col := range n {
			x, y := (float64(col)+0.5)*side/float64(n), (float64(row)+0.5)*side/float64(n)
			black := false
			for _, r := range all {
				black = black || r[0] < x && x < r[2] && r[1] < y && y < r[3]
			}
			if black != c.Black(col-4, row-4) {
				t.Fatalf("module %d, %d of the code of %s is drawn otherwise", col, row, link)
			}
		}
	}
}
