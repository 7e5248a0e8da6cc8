package links

import (
	"crypto/rand"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Secrets open the pages to other machines: one to read and enter, one to read only.
type Secrets struct{ Write, Read string }

// FileName is the file in the folder that keeps them, so that a device stays known when the
// server is started again. Nothing that begins with a point is served.
const FileName = ".borewright-serve"

// SecretsOf reads the secrets of a folder, or makes them; anew makes them in any case, so that
// the links given out before open nothing any more.
func SecretsOf(dir string, anew bool) (Secrets, error) {
	path := filepath.Join(dir, FileName)
	if anew {
		if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return Secrets{}, err
		}
	}
	data, err := os.ReadFile(path)
	if err == nil {
		words := strings.Fields(string(data))
		if len(words) != 2 || len(words[0]) < 26 || len(words[1]) < 26 {
			return Secrets{}, fmt.Errorf("%s does not hold two secrets: --new-links makes them anew", path)
		}
		return Secrets{words[0], words[1]}, nil
	} else if !errors.Is(err, fs.ErrNotExist) {
		return Secrets{}, err
	}
	s := Secrets{strings.ToLower(rand.Text()), strings.ToLower(rand.Text())} // 130 bits each
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return Secrets{}, err
	}
	_, err = fmt.Fprintf(f, "%s\n%s\n", s.Write, s.Read)
	return s, errors.Join(err, f.Sync(), f.Close())
}
