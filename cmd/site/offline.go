package site

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ruffwright/assets"
)

// stock is what the service worker is told of the site that it keeps for use
// without a network.
type stock struct {
	Name  string            `json:"name"`  // changes with any of the files
	Files map[string]string `json:"files"` // name → digest, as an integrity attribute has it
}

// offline writes the service worker of the site in dir: the list of what the
// site holds, then offline.js. A manifest that lists a file that is not there is
// an error.
func offline(dir string, m Manifest) ([]byte, error) {
	source, ok := assets.PageFile("offline.js")
	if !ok {
		return nil, errors.New("assets has no page file offline.js")
	}
	site := stock{Files: map[string]string{}}
	for name := range m.Sizes {
		text, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return nil, err
		}
		site.Files[name] = digest(text)
	}
	list, err := json.Marshal(site.Files) // in the order of the names
	if err != nil {
		return nil, err
	}
	site.Name = fmt.Sprintf("%x", sha256.Sum256(append(list, source...)))[:12]
	list, err = json.MarshalIndent(site, "", " ")
	if err != nil {
		return nil, err
	}
	return fmt.Appendf(nil, "const site = %s;\n%s", list, source), nil
}

// digest is a file's, as policies and integrity attributes write it.
func digest(text []byte) string {
	sum := sha256.Sum256(text)
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}
