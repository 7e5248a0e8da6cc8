package serve

import (
	"crypto/sha256"
	"crypto/subtle"
	"encoding/hex"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"borewright/cmd/serve/links"
)

// SecretsFile is the file that keeps them: that of the link to write first.
func (s *Server) SecretsFile() string { return filepath.Join(s.dir, links.FileName) }

// right is what a visitor may do.
type right int

const (
	nothing right = iota
	reads
	writes
)

// cookieName is the cookie that a device carries after its first visit; lookName that of how it
// wants the page.
const (
	cookieName = "mill"
	lookName   = "look"
)

// token is what the cookie holds for a secret: who reads it does not have the link.
func token(secret string) string {
	sum := sha256.Sum256([]byte("borewright serve, cookie: " + secret))
	return hex.EncodeToString(sum[:])
}

func same(a, b string) bool { return subtle.ConstantTimeCompare([]byte(a), []byte(b)) == 1 }

// rightOf is what the cookie of a request opens. On the machine itself no link is needed.
func (s *Server) rightOf(r *http.Request) right {
	if !s.lan {
		return writes
	}
	c, err := r.Cookie(cookieName)
	switch {
	case err != nil:
		return nothing
	case same(c.Value, token(s.secrets.Write)):
		return writes
	case same(c.Value, token(s.secrets.Read)):
		return reads
	}
	return nothing
}

// letIn takes a link with its secret, leaves a cookie and goes on to the jobs, or to the one that
// the link names, so that the secret stands in no address after that. A device that may enter
// sizes still may when it reads the code of a card.
func (s *Server) letIn(w http.ResponseWriter, r *http.Request) {
	secret := r.PathValue("secret")
	if !s.lan || !same(secret, s.secrets.Write) && !same(secret, s.secrets.Read) {
		s.refuse(w, r, http.StatusForbidden, "This link opens nothing (any more). Ask for the one that the server prints now.")
		return
	}
	to, job := "/", r.PathValue("job")
	if _, err := s.pathOf(job); err == nil {
		to = (&url.URL{Path: "/mill/" + job}).String()
		if s.rightOf(r) == writes {
			secret = s.secrets.Write
		}
	}
	http.SetCookie(w, &http.Cookie{Name: cookieName, Value: token(secret), Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode, MaxAge: 400 * 24 * 3600})
	http.Redirect(w, r, to, http.StatusSeeOther)
}

// headers are those of every answer: nothing from elsewhere, no script or style in a page, no
// address handed on, not in a frame of others.
func headers(h http.Header) {
	h.Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

// guarded is the server behind its guards.
func (s *Server) guarded(next http.Handler) http.Handler {
	origins := http.NewCrossOriginProtection()
	origins.SetDenyHandler(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.refuse(w, r, http.StatusForbidden, "This came from another page than the mill's own.")
	}))
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		headers(w.Header())
		switch {
		case !s.ownHost(r.Host):
			http.Error(w, "This server is not called by that name.", http.StatusMisdirectedRequest)
			return
		case strings.HasPrefix(r.URL.Path, "/in/"), strings.HasPrefix(r.URL.Path, "/own/"):
		case s.rightOf(r) == nothing:
			s.refuse(w, r, http.StatusForbidden, "Open the link that the server prints, or read its square code with this device.")
			return
		case r.Method != http.MethodGet && r.Method != http.MethodHead && s.rightOf(r) != writes:
			s.refuse(w, r, http.StatusForbidden, "This device may read only. The other link lets it enter sizes.")
			return
		}
		defer s.ahead.Asked()()
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		origins.Handler(next).ServeHTTP(w, r)
	})
}

// ownHost is whether a request asks for this server by an address or by its own name: a name
// of others that leads here is a page of others that reads along.
func (s *Server) ownHost(host string) bool {
	name, port, err := net.SplitHostPort(host)
	if err != nil {
		name = host
	} else if _, err := strconv.ParseUint(port, 10, 16); err != nil { // 127.0.0.1:80.elsewhere is no address
		return false
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	if ip := net.ParseIP(name); ip != nil {
		return s.lan || ip.IsLoopback()
	}
	own, _ := os.Hostname()
	own, _, _ = strings.Cut(strings.ToLower(own), ".")
	first, rest, _ := strings.Cut(name, ".")
	return name == "localhost" || s.lan && own != "" && first == own && (rest == "" || rest == "local" || rest == "lan")
}
