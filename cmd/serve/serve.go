// Package serve is the page at the mill: the jobs of a folder on a screen that hands with oil on
// them can use, from this program and over the same files. Job files and results files stay the
// only truth: a job is read, planned and added to by the code that the commands use, and they go
// on working beside it.
//
// Pages are made here, plain HTML; scripts add the keypad, what waits for the network, and what
// another screen has entered. Nothing is loaded from elsewhere.
package serve

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"sync"
	"time"

	"borewright/cmd/folder"
	"borewright/cmd/serve/ahead"
	"borewright/cmd/serve/links"
)

// Bounds of a request.
const (
	mostBody    = 64 << 10
	mostHeaders = 16 << 10
	waitHeaders = 5 * time.Second
	waitBody    = 15 * time.Second
	waitAnswer  = 60 * time.Second
)

// Options are how a folder is served.
type Options struct {
	LAN   bool // to the shop's network, with links; else to this machine alone
	Port  int  // 0: any that is free
	Fresh bool // make the links anew
	Clock func() time.Time
}

// Server serves one folder.
type Server struct {
	dir     string
	root    *os.Root
	lan     bool
	secrets links.Secrets
	now     func() time.Time

	mu    sync.Mutex
	plans map[string]*planned // by the job's file
	desks desks
	ahead *ahead.Worker

	listMu  sync.Mutex
	list    []folder.Job
	listed  time.Time
	looking time.Duration // that the last look through the folder took
	listErr error
}

// New opens a folder to be served.
func New(dir string, o Options) (*Server, error) {
	info, err := os.Stat(dir)
	if err != nil || !info.IsDir() {
		return nil, fmt.Errorf("%s is no folder; give the folder that holds the jobs", dir)
	}
	if dir, err = filepath.Abs(dir); err != nil {
		return nil, err
	}
	s := &Server{dir: dir, lan: o.LAN, now: o.Clock, plans: map[string]*planned{}, desks: newDesks()}
	s.ahead = ahead.New(s.aheadWork())
	if s.now == nil {
		s.now = time.Now
	}
	if s.root, err = os.OpenRoot(dir); err != nil {
		return nil, err
	}
	if o.LAN {
		if s.secrets, err = links.SecretsOf(dir, o.Fresh); err != nil {
			s.root.Close()
			return nil, err
		}
	}
	return s, nil
}

// Close lets go of the folder.
func (s *Server) Close() error { return s.root.Close() }

// Handler answers requests.
func (s *Server) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.jobsPage)
	mux.HandleFunc("GET /in/{secret}", s.letIn)
	mux.HandleFunc("GET /in/{secret}/{job...}", s.letIn)
	mux.HandleFunc("GET /own/{file}", s.ownFile)
	mux.HandleFunc("GET /look/{look}", s.setLook)
	mux.HandleFunc("GET /mill/{job...}", s.millPage)
	mux.HandleFunc("GET /stands/{job...}", s.stands)
	mux.HandleFunc("GET /compare/{job...}", s.comparePage)
	mux.HandleFunc("POST /approve/{job...}", s.approve)
	mux.HandleFunc("GET /record/{job...}", s.recordPage)
	mux.HandleFunc("GET /card/{job...}", s.cardPage)
	mux.HandleFunc("GET /running/{kind}/{job...}", s.running)
	mux.HandleFunc("POST /enter/{job...}", s.enter)
	mux.HandleFunc("GET /desk/{job...}", s.deskPage)
	mux.HandleFunc("POST /desk/{job...}", s.deskWorks)
	mux.HandleFunc("POST /changes/{job...}", s.deskChanges)
	mux.HandleFunc("POST /save/{job...}", s.deskSave)
	mux.HandleFunc("POST /new", s.newJob)
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		s.refuse(w, r, http.StatusNotFound, "There is no such page.")
	})
	return s.guarded(mux)
}

// Links are the addresses that open the pages: of this machine, or of each of its addresses on
// the network, to write and to read.
func (s *Server) Links(port int) (write, read []string) {
	if !s.lan {
		return []string{fmt.Sprintf("http://localhost:%d/", port)}, nil
	}
	for _, ip := range links.Addresses() {
		at := "http://" + net.JoinHostPort(ip.String(), fmt.Sprint(port))
		write, read = append(write, at+"/in/"+s.secrets.Write), append(read, at+"/in/"+s.secrets.Read)
	}
	return write, read
}

// Listen opens the port: of this machine alone, or of all its networks with LAN.
func (o Options) Listen() (net.Listener, error) {
	if o.Port < 0 || o.Port > 65535 {
		return nil, fmt.Errorf("there is no port %d; give one from 0 to 65535 with --port", o.Port)
	}
	at := fmt.Sprintf("127.0.0.1:%d", o.Port)
	if o.LAN {
		at = fmt.Sprintf(":%d", o.Port)
	}
	l, err := net.Listen("tcp", at)
	if err != nil {
		return nil, fmt.Errorf("port %d cannot be had (%w); another one is given with --port", o.Port, err)
	}
	return l, nil
}

// Serve answers until ctx ends, and then lets what is being entered come to its end. Beside it the
// jobs of the folder are planned.
func (s *Server) Serve(ctx context.Context, l net.Listener, errs io.Writer) error {
	h := &http.Server{Handler: s.Handler(), ReadHeaderTimeout: waitHeaders, ReadTimeout: waitBody, WriteTimeout: waitAnswer, IdleTimeout: 2 * time.Minute,
		MaxHeaderBytes: mostHeaders, ErrorLog: log.New(errs, "serve: ", 0)} // tells of connections, never of addresses asked for
	ctx, stop := context.WithCancel(ctx)
	var beside sync.WaitGroup
	beside.Go(func() { s.ahead.Run(ctx) })
	defer beside.Wait()
	defer stop()
	ended := make(chan error, 1)
	go func() {
		<-ctx.Done()
		limited, cancel := context.WithTimeout(context.Background(), 10*time.Second)
		defer cancel()
		ended <- h.Shutdown(limited)
	}()
	if err := h.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return <-ended
}
