package site

import (
	"bytes"
	"context"
	"encoding/base64"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/kjk/lzma"

	"ruffwright/assets"
	"ruffwright/cmd/disk"
)

// made stands in every page that is one file; a file without it is not
// overwritten.
const made = `<meta name="generator" content="ruffwright, the page as one file">`

// singlePolicy is the policy of the page that is one file: nothing is loaded
// from anywhere, only the scripts and the style that stand in it run, workers
// come from it alone. The marks give way to the digests.
const singlePolicy = "default-src 'none'; script-src %s 'wasm-unsafe-eval'; style-src %s; img-src data: blob:; worker-src blob:; base-uri 'none'; form-action 'none'; object-src 'none'"

// Single writes the page as one file, out, that opens from a disk without a
// server, and returns its bytes. The file must be new, or a page that Single
// wrote earlier: nothing else is overwritten. The same source by the same
// toolchain gives the same bytes.
func Single(ctx context.Context, out string) (int, error) {
	if ext := strings.ToLower(filepath.Ext(out)); ext != ".html" && ext != ".htm" {
		return 0, fmt.Errorf("%q: name a file that ends in .html, so that a double click opens it in a browser", out)
	}
	if err := mayReplace(out); err != nil {
		return 0, err
	}
	dir, err := found(ctx)
	if err != nil {
		return 0, err
	}
	text, err := bundle(dir)
	if err != nil {
		return 0, err
	}
	return len(text), disk.Write(out, text)
}

// mayReplace reports, as an error, why the file of that name must not be
// written.
func mayReplace(name string) error {
	f, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	defer f.Close()
	if at, err := f.Stat(); err != nil || !at.Mode().IsRegular() {
		return fmt.Errorf("%s is there and is no file: name another", name)
	}
	head := make([]byte, 4096)
	n, err := io.ReadFull(f, head)
	if err != nil && !errors.Is(err, io.ErrUnexpectedEOF) && err != io.EOF {
		return err
	}
	if !bytes.Contains(head[:n], []byte(made)) {
		return fmt.Errorf("%s is there and is no page written by ruffwright: it is left as it is; name another file", name)
	}
	return nil
}

// bundle makes one page of the site in dir: style and scripts stand in it and
// are named by their digests in its policy, pictures are data: addresses, the
// programs one packed block that unpack.js reads.
func bundle(dir string) ([]byte, error) {
	m, err := ReadManifest(dir)
	if err != nil {
		return nil, err
	}
	var failed error
	read := func(what string) []byte {
		text, err := os.ReadFile(filepath.Join(dir, m.Files[what]))
		failed = errors.Join(failed, err)
		return text
	}
	page := read("page")
	swap := func(old string, new []byte) {
		if n := bytes.Count(page, []byte(old)); n != 1 {
			failed = errors.Join(failed, fmt.Errorf("%q must stand once in the page, and stands %d times", old, n))
			return
		}
		page = bytes.Replace(page, []byte(old), new, 1)
	}

	style := inline(read("style"))
	swap(`<link rel="stylesheet" href="`+m.Files["style"]+`">`, fmt.Appendf(nil, "<style>%s</style>", style))
	from, to := bytes.Index(page, []byte(`<script defer src="`)), bytes.LastIndex(page, []byte(`<link rel="preload" as="fetch"`))
	if from < 0 || to < from {
		return nil, errors.New("the page names no programs")
	}
	page = slices.Concat(page[:from], page[to+bytes.IndexByte(page[to:], '\n')+1:])

	pictures := []string{}
	for what, name := range m.Files {
		if types[filepath.Ext(name)] != "" && strings.HasPrefix(types[filepath.Ext(name)], "image/") {
			pictures = append(pictures, what)
		}
	}
	slices.Sort(pictures)
	for _, what := range pictures {
		name := m.Files[what]
		if !bytes.Contains(page, []byte(`"`+name+`"`)) {
			failed = errors.Join(failed, fmt.Errorf("the page names no picture %s", name))
		}
		page = bytes.ReplaceAll(page, []byte(`"`+name+`"`), fmt.Appendf(nil, `"data:%s;base64,%s"`, types[filepath.Ext(name)], base64.StdEncoding.EncodeToString(read(what))))
	}

	swap(` href="`+m.Files["notices"]+`"`, nil) // the loader unpacks them

	parts, packed, err := packedPrograms(dir, m)
	if err != nil {
		return nil, err
	}
	unpack, ok := assets.PageFile("unpack.js")
	if !ok {
		return nil, errors.New("assets has no page file unpack.js")
	}
	var end bytes.Buffer
	fmt.Fprintf(&end, "<script type=\"text/plain\" id=\"worker\">%s</script>\n", inline(read("worker")))
	fmt.Fprintf(&end, "<script type=\"application/octet-stream\" id=\"packed\">%s</script>\n", packed)
	var digests []string
	for _, own := range []struct {
		attributes string
		text       []byte
	}{{`id="exec"`, read("exec")}, {`id="unpack"`, unpack}, {`id="loader" data-packed="` + parts + `"`, read("loader")}} {
		text := inline(own.text)
		digests = append(digests, "'"+digest(text)+"'")
		fmt.Fprintf(&end, "<script %s>%s</script>\n", own.attributes, text)
	}
	swap("</body>", append(end.Bytes(), "</body>"...))
	swap(`<meta http-equiv="Content-Security-Policy" content="`+Policy+`">`,
		fmt.Appendf(nil, `%s<meta http-equiv="Content-Security-Policy" content="`+singlePolicy+`">`, made+"\n", strings.Join(digests, " "), "'"+digest(style)+"'"))
	return page, failed
}

// inline is a script or style as it may stand between its tags: whatever would
// end it, or begin a comment in it, is written so that only the language it is
// in reads it the same.
func inline(text []byte) []byte {
	for _, c := range [][2]string{{"</script", `<\/script`}, {"</style", `<\/style`}, {"<!--", `<\!--`}} {
		text = bytes.ReplaceAll(text, []byte(c[0]), []byte(c[1]))
	}
	return text
}

// pack writes data as one LZMA stream in the .lzma form, which unpack.js reads: a byte
// of properties, the size of the dictionary, the size of the data, then the range
// coder's bytes, without an end mark. The same data gives the same bytes.
//
// Why not gzip, which browsers unpack by themselves: its window of 32 KiB sees
// nothing of what the page's programs have in common, and packs them half as well.
func pack(data []byte) ([]byte, error) {
	const level = 7 // a window of 32 MiB: all of the programs
	var out bytes.Buffer
	w := lzma.NewWriterSizeLevel(&out, int64(len(data)), level)
	_, err := w.Write(data)
	err = errors.Join(err, w.Close())
	return out.Bytes(), err
}

// written is packed bytes as text that may stand in a page, a sixth longer than
// they are: seven bits a letter, the first bit the greatest, all of them ASCII. A
// page would change 0 and a carriage return, < could begin a tag, and 127 says
// that a letter from @ on stands for one of these four. (Base 85 is a quarter
// longer, base 64 a third, and on the page's 6 MB that tells.)
func written(packed []byte) []byte {
	text := make([]byte, 0, len(packed)*6/5)
	put := func(v byte) {
		if i := bytes.IndexByte(unwritten, v); i >= 0 {
			text = append(text, 127, '@'+byte(i))
			return
		}
		text = append(text, v)
	}
	held, n := uint32(0), 0
	for _, b := range packed {
		held, n = held<<8|uint32(b), n+8
		for n >= 7 {
			n -= 7
			put(byte(held >> n & 127))
		}
	}
	if n > 0 {
		put(byte(held << (7 - n) & 127))
	}
	return text
}

var unwritten = []byte{0, '\r', '<', 127}

// packedName is where the cache keeps the packed programs of the site in dir.
func packedName(dir string) string {
	return filepath.Join(filepath.Dir(dir), "packed-"+filepath.Base(dir))
}

// packedPrograms packs what the page unpacks, in the order in which it needs it. parts
// tells each one's name and bytes. What was packed is kept beside the site, for packing
// takes its time.
func packedPrograms(dir string, m Manifest) (parts string, packed []byte, err error) {
	var all []byte
	var sizes []string
	for _, what := range []string{"program", "stage", "press", "notices"} {
		text, err := os.ReadFile(filepath.Join(dir, m.Files[what]))
		if err != nil {
			return "", nil, err
		}
		all = append(all, text...)
		sizes = append(sizes, fmt.Sprintf("%s:%d", what, len(text)))
	}
	parts = strings.Join(sizes, " ")
	packed, err = os.ReadFile(packedName(dir))
	if err == nil && bytes.HasPrefix(packed, []byte(digest(all)+"\n")) {
		return parts, packed[len(digest(all))+1:], nil
	}
	compressed, err := pack(all)
	if err != nil {
		return "", nil, err
	}
	packed = written(compressed)
	_ = disk.Write(packedName(dir), append([]byte(digest(all)+"\n"), packed...)) // without it the next time takes as long
	return parts, packed, nil
}
