package assets

import "embed"

//go:embed page/page.css page/plain.js page/stage.js page/handles.js page/easel.js page/loader.js page/worker.js page/unpack.js page/offline.js
var page embed.FS

// PageFile returns a file of the page by name, as 'page.css' or 'loader.js', and
// whether there is one.
func PageFile(name string) ([]byte, bool) {
	text, err := page.ReadFile("page/" + name)
	return text, err == nil
}
