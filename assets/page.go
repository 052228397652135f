package assets

import "embed"

//go:embed page/page.css page/loader.js page/worker.js page/unpack.js page/offline.js
var page embed.FS

// PageFile returns a file of the page by name, 'page.css', 'loader.js',
// 'worker.js', 'unpack.js' or 'offline.js', and whether there is one.
func PageFile(name string) ([]byte, bool) {
	text, err := page.ReadFile("page/" + name)
	return text, err == nil
}
