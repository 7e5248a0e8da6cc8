package serve

import (
	"errors"
	"fmt"
	"io/fs"
	"net/http"
	"net/url"
	"path"
	"path/filepath"
	"strings"
	"unicode/utf8"

	"borewright/cmd/store"
	"borewright/process/field/keys"
	"borewright/process/files"
	"borewright/process/qty"
	"borewright/process/source"
)

// newJob begins a job: the commented file that "borewright new" writes, its number that of the
// file. A file that is there stays.
func (s *Server) newJob(w http.ResponseWriter, r *http.Request) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "What came does not read.")
		return
	}
	u, ok := map[string]qty.Unit{"in": qty.Inches, "mm": qty.Metric}[r.PostForm.Get("units")]
	name, err := s.newName(r.PostForm.Get("name"))
	if !ok && err == nil {
		err = errors.New("say whether it is in inches or in mm")
	}
	if err != nil {
		s.refuse(w, r, http.StatusUnprocessableEntity, "No job is begun: "+err.Error()+".")
		return
	}
	number := strings.TrimSuffix(path.Base(name), ".toml")
	data, err := source.Edited(files.Template(u), source.Edit{Path: "number", Value: keys.TOMLText(number)})
	if err == nil {
		err = store.New(filepath.Join(s.dir, filepath.FromSlash(name)), data)
	}
	if errors.Is(err, fs.ErrExist) {
		s.refuse(w, r, http.StatusConflict, "No job is begun: there is a "+name+" already.")
		return
	} else if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, said(s.withoutPaths(err))...)
		return
	}
	s.listAnew()
	at := url.URL{Path: "/desk/" + name}
	http.Redirect(w, r, at.String(), http.StatusSeeOther)
}

// longestNew is how long a part of a new name may be, in characters.
const longestNew = 60

// newName is the file of a new job by the name that was typed: in the folder, or in a folder in
// it that is there.
func (s *Server) newName(typed string) (string, error) {
	name := strings.TrimSpace(typed)
	if name == "" {
		return "", errors.New("give it a number, as WG-205")
	}
	if !strings.HasSuffix(name, ".toml") {
		name += ".toml"
	}
	if !fs.ValidPath(name) || strings.ContainsAny(name, `\:*?"<>|`) || strings.ContainsFunc(name, source.Unprintable) {
		return "", fmt.Errorf("%s is no name for a file; take letters, digits and -", source.Show(typed))
	}
	for part := range strings.SplitSeq(name, "/") {
		if strings.HasPrefix(part, ".") || strings.Trim(part, " .") != part || utf8.RuneCountInString(part) > longestNew {
			return "", fmt.Errorf("%s is no name for a file: begin and end with a letter or a digit, %d characters at the most", source.Show(part), longestNew)
		}
	}
	if strings.HasSuffix(name, ".results.toml") || strings.HasSuffix(name, ".approved.toml") || path.Base(name) == store.ListName {
		return "", fmt.Errorf("%s is the name of a file that is no job", source.Show(name))
	}
	if info, err := s.root.Stat(path.Dir(name)); err != nil || !info.IsDir() || !s.holds(path.Dir(name)) {
		return "", fmt.Errorf("there is no folder %s here", source.Show(path.Dir(name)))
	}
	return name, nil
}
