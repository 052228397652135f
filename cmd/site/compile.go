package site

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"ruffwright/assets"
	"ruffwright/wasm/page"
	"ruffwright/wasm/page/say"
)

// draft is a site on its way into an empty folder.
type draft struct {
	dir string
	Manifest
}

// compile writes the whole site into the empty folder dir.
func compile(ctx context.Context, root, dir string) error {
	d := draft{dir, Manifest{Version: 1, Files: map[string]string{}, Sizes: map[string]int{}}}
	if err := d.programs(ctx, root); err != nil {
		return err
	}
	text, err := execJS(ctx, root)
	if err != nil {
		return err
	}
	if err := d.write("exec", "wasm_exec", ".js", text); err != nil {
		return err
	}
	for _, own := range []struct {
		what, stem, ext string
		parts           []string // one after the other
	}{
		{"style", "page", ".css", []string{"page"}},
		{"loader", "loader", ".js", []string{"plain", "stage", "handles", "easel", "loader"}},
		{"worker", "worker", ".js", []string{"worker"}},
	} {
		var text []byte
		for _, part := range own.parts {
			more, ok := assets.PageFile(part + own.ext)
			if !ok {
				return fmt.Errorf("assets has no page file %s", part+own.ext)
			}
			text = append(text, more...)
		}
		if err := d.write(own.what, own.stem, own.ext, text); err != nil {
			return err
		}
	}
	if err := d.write("notices", "notices", ".txt", []byte(assets.Notices)); err != nil {
		return err
	}
	if err := d.page(root); err != nil {
		return err
	}
	if text, err = offline(dir, d.Manifest); err != nil {
		return err
	}
	if err := d.write("offline", "offline", ".js", text); err != nil {
		return err
	}
	list, err := json.MarshalIndent(d.Manifest, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, manifestName), append(list, '\n'), 0o644)
}

// write writes a file, named by its content, and notes it in the manifest.
func (d *draft) write(what, stem, ext string, text []byte) error {
	name := stem + ext
	if stem != "index" && stem != "offline" { // these two are asked for by name
		name = fmt.Sprintf("%s.%x", stem, sha256.Sum256(text))
		name = name[:len(stem)+1+12] + ext
	}
	d.Files[what], d.Sizes[name] = name, len(text)
	return os.WriteFile(filepath.Join(d.dir, name), text, 0o644)
}

// programs builds the page's three programs.
func (d *draft) programs(ctx context.Context, root string) error {
	built := filepath.Join(d.dir, "program.tmp")
	for _, own := range []struct {
		what, pkg, stem string
		quick           []string
	}{
		{"program", "./wasm", "ruffwright", kernels},
		{"stage", "./wasm/stage", "stage", nil},
		{"press", "./wasm/press", "press", kernels},
	} {
		if err := program(ctx, root, own.pkg, built, terse(own.quick...)...); err != nil {
			return err
		}
		text, err := os.ReadFile(built)
		if err != nil {
			return err
		}
		if err := d.write(own.what, own.stem, ".wasm", text); err != nil {
			return err
		}
	}
	return os.Remove(built)
}

// page writes the pictures of the start and the page that shows them.
func (d *draft) page(root string) error {
	start, err := page.Start()
	if err != nil {
		return fmt.Errorf("the page's start: %w", err)
	}
	for _, picture := range start.Pictures {
		if err := d.write("picture "+picture.Name, "start-"+picture.Name, ".jpg", picture.JPEG); err != nil {
			return err
		}
	}
	source, err := os.ReadFile(filepath.Join(root, "index.html"))
	if err != nil {
		return err
	}
	text, err := assemble(source, start, d.Files)
	if err != nil {
		return fmt.Errorf("index.html: %w", err)
	}
	return d.write("page", "index", ".html", text)
}

// assemble fills the page's source: each mark `<!-- fill NAME -->` in it gives
// way to what was built, the notice for an unbuilt page is taken out, and the
// names of files become the hashed ones. A mark that is missing or left over
// is an error.
func assemble(source []byte, start page.Started, files map[string]string) ([]byte, error) {
	text := source
	if from, to := bytes.Index(text, []byte("<!-- unbuilt -->")), bytes.Index(text, []byte("<!-- /unbuilt -->")); from >= 0 && to > from {
		text = slices.Concat(text[:from], text[to+len("<!-- /unbuilt -->"):])
	} else {
		return nil, errors.New("the notice for an unbuilt page is not marked")
	}
	spoken, err := say.Fill(string(text)) // before anything else comes in
	if err != nil {
		return nil, err
	}
	text = []byte(strings.Replace(spoken, `<html lang="en">`, `<html lang="`+say.Language().Tag+`">`, 1))
	replace := func(old, new string) error {
		if bytes.Count(text, []byte(old)) != 1 {
			return fmt.Errorf("%q must stand once, and stands %d times", old, bytes.Count(text, []byte(old)))
		}
		text = bytes.Replace(text, []byte(old), []byte(new), 1)
		return nil
	}
	for name, html := range start.HTML {
		err = errors.Join(err, replace("<!-- fill "+name+" -->", html))
	}
	err = errors.Join(err,
		replace(`href="assets/page/page.css"`, `href="`+files["style"]+`"`),
		replace(`href="assets/notices.txt"`, `href="`+files["notices"]+`"`),
		replace(`<!-- fill program -->`, `<script defer src="`+files["exec"]+`"></script>
<script defer src="`+files["loader"]+`" data-program="`+files["program"]+`" data-exec="`+files["exec"]+`" data-worker="`+files["worker"]+`" data-stage="`+files["stage"]+`" data-press="`+files["press"]+`" data-offline="offline.js"></script>
<link rel="preload" as="fetch" crossorigin href="`+files["program"]+`">`))
	for _, picture := range start.Pictures {
		err = errors.Join(err, replace("start-"+picture.Name+".jpg", files["picture "+picture.Name]))
	}
	if err != nil {
		return nil, err
	}
	if at := bytes.Index(text, []byte("<!-- fill ")); at >= 0 {
		return nil, fmt.Errorf("nothing fills %q", text[at:min(at+40, len(text))])
	}
	return text, nil
}
