package site

import (
	"bytes"
	"fmt"
	"image/jpeg"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// pictures is the folder of the README's pictures, from the top.
const pictures = "assets/pictures"

// TestPictures takes the README's pictures anew where RUFFWRIGHT_PICTURES is
// set, and holds the README to them: each that it shows is there, is a picture
// of a size that a reader's line can bear, and says in words what is on it.
func TestPictures(t *testing.T) {
	t.Parallel()
	root, err := Root("")
	if err != nil {
		t.Fatal(err)
	}
	if os.Getenv("RUFFWRIGHT_PICTURES") != "" {
		takePictures(t, filepath.Join(root, pictures))
	}
	readme, err := os.ReadFile(filepath.Join(root, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	shown := regexp.MustCompile(`!\[([^\]]{20,})\]\((`+pictures+`/[a-z-]+\.jpg)\)`).FindAllStringSubmatch(string(readme), -1)
	if len(shown) != 6 {
		t.Errorf("the README shows %d pictures with words, want 6", len(shown))
	}
	for _, s := range shown {
		text, err := os.ReadFile(filepath.Join(root, s[2]))
		if err != nil {
			t.Error(err)
			continue
		}
		if at, err := jpeg.DecodeConfig(bytes.NewReader(text)); err != nil || at.Width < 300 || len(text) > 200e3 {
			t.Errorf("%s: %d bytes, %d pixels wide, %v", s[2], len(text), at.Width, err)
		}
	}
	files, err := os.ReadDir(filepath.Join(root, pictures))
	if err != nil || len(files) != len(shown) {
		t.Errorf("%d pictures, %d of them shown, %v", len(files), len(shown), err)
	}
}

// takePictures writes them into dir, one tab for the desk and one for the phone.
func takePictures(t *testing.T, dir string) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	take := func(b *tab, name, beside string) {
		b.settle()
		b.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`document.activeElement.blur(); document.querySelector(%q).scrollIntoView({block: "start", behavior: "instant"})`, beside)))
		b.frames()
		shot, err := chromedp.Call(b.ctx, page.CaptureScreenshot, page.CaptureScreenshotParams{
			Format: page.CaptureScreenshotFormatJpeg, Quality: new(int64(82)), FromSurface: new(true),
		})
		if err == nil {
			err = os.WriteFile(filepath.Join(dir, name+".jpg"), shot.Data, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	b := open(t, site(t), screen{width: 1280, height: 860}).ready()
	take(b, "first", ".head")
	b.follow(linkOf(t, "floppy"))
	b.click("#pose-bow")
	take(b, "floppy", ".picture")
	b.follow(linkOf(t, "tall"))
	b.click("#view-cut")
	take(b, "cut", ".picture")
	b.click("#view-hand")
	b.follow(linkOf(t, "untucked"))
	b.media(true, true)
	b.click("#twin")
	take(b, "compare", ".picture")
	b = open(t, site(t)+"#lesson=ends-up", screen{width: 390, height: 780, ratio: 1.5, touch: true}).ready()
	take(b, "lesson", "#lesson")
	b.click(`[data-do="lesson-away"]`)
	b.follow(linkOf(t, "wide"))
	b.slide(55)
	take(b, "fold", ".picture")
}

// follow follows a link within the page.
func (b *tab) follow(link string) {
	b.t.Helper()
	b.do(chromedp.Evaluate[chromedp.Void](fmt.Sprintf("location.hash = %q", link)))
	b.await(fmt.Sprintf(`!location.hash || location.hash === %q`, link))
	b.settle()
}
