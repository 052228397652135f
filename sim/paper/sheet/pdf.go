package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	imagedraw "image/draw"
	"image/png"
	"io"
	"math"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"ruffwright/geom/draw"
)

// pictureRes is the resolution of pictures of cloth in px/mm, 203 dots an inch:
// twice the screen of an office printer's greys (about 100 lines an inch), beyond
// which nothing more is seen. Lines and words over them are vectors. At 300 dots
// the sheets of 200 sets took twice as long, nearly all of it for these pictures.
const pictureRes = 8.0

const family = "sheet"

// styles are fpdf's names of the faces.
var styles = [...]string{draw.Upright: "", draw.Italic: "I", draw.Bold: "B"}

// Print is how pages come into a PDF.
type Print struct {
	Wide_mm, High_mm   float64 // of the paper
	StretchX, StretchY float64 // what all is multiplied by, about the paper's middle, for a printer that is off; else 1
	Title              string
	Date               time.Time
	// Progress is called before each page is written, from 1; what it gives back,
	// unless nil, ends the work. nil: nobody asks.
	Progress func(page, of int) error
}

// WritePDF writes pages as one PDF: vectors and embedded fonts, pictures of cloth
// at 203 dots an inch, with the hint to print without scaling. The live area lies
// in the middle of the paper. The same pages give the same bytes.
func WritePDF(w io.Writer, pages []Page, how Print) error {
	wide, high := how.Wide_mm, how.High_mm
	f := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: wide, Ht: high}})
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCompression(true)
	f.SetCatalogSort(true)
	f.SetCreationDate(how.Date)
	f.SetModificationDate(how.Date)
	f.SetProducer("ruffwright", true)
	f.SetTitle(printable(how.Title, draw.Upright), true)
	f.SetLang("en-GB")
	f.SetDisplayMode("fullpage", "continuous")
	for _, face := range []draw.Face{draw.Upright, draw.Italic, draw.Bold} {
		f.AddUTF8FontFromBytes(family, styles[face], draw.TTF(face))
	}
	f.SetLineCapStyle("round")
	f.SetLineJoinStyle("round")
	r := replay{f: f, dx: (wide - Live_mm) / 2, dy: (high - LiveHigh_mm) / 2, wide: map[int]bool{}}
	for n, p := range pages {
		if how.Progress != nil {
			if err := how.Progress(n+1, len(pages)); err != nil {
				return err
			}
		}
		f.AddPage()
		f.Bookmark(bookmark(p), 0, 0)
		r.forget()
		stretched := how.StretchX != 1 || how.StretchY != 1
		if stretched {
			f.TransformBegin()
			f.TransformScale(100*how.StretchX, 100*how.StretchY, wide/2, high/2)
		}
		for i, pic := range p.Pictures {
			if err := r.picture(pic, fmt.Sprintf("picture %d on sheet %d", i+1, n+1)); err != nil {
				return err
			}
		}
		for _, it := range p.Items {
			r.item(it, 0, 0)
		}
		if stretched {
			f.TransformEnd()
		}
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return fmt.Errorf("sheet: cannot write the PDF: %w", err)
	}
	out, err := unscaled(b.Bytes())
	if err != nil {
		return err
	}
	_, err = w.Write(out)
	return err
}

func bookmark(p Page) string {
	s := strconv.Itoa(p.Number) + "  " + p.Title.In(p.Language)
	if !p.Holds.Empty() {
		s += ": " + p.Holds.In(p.Language)
	}
	return s
}

// unscaled puts the viewer's preference /PrintScaling /None (ISO 32000-1, 12.2)
// into the catalogue. It is the last object of the file, so that only the address
// of the table of objects moves.
func unscaled(pdf []byte) ([]byte, error) {
	const (
		catalogue = "/Type /Catalog\n"
		wish      = "/ViewerPreferences << /PrintScaling /None >>\n"
		startxref = "\nstartxref\n"
	)
	at := bytes.LastIndex(pdf, []byte(catalogue))
	end := bytes.LastIndex(pdf, []byte(startxref))
	if at < 0 || end < at || bytes.Contains(pdf[at:end], []byte(" 0 obj")) {
		return nil, errors.New("sheet: the PDF's catalogue is not its last object")
	}
	at += len(catalogue)
	tail := pdf[end+len(startxref):]
	n := bytes.IndexByte(tail, '\n')
	if n < 0 {
		return nil, errors.New("sheet: the PDF has no table of objects")
	}
	address, err := strconv.Atoi(string(tail[:n]))
	if err != nil || address < at {
		return nil, errors.New("sheet: the PDF's table of objects does not follow its catalogue")
	}
	out := make([]byte, 0, len(pdf)+len(wish)+2)
	out = append(out, pdf[:at]...)
	out = append(out, wish...)
	out = append(out, pdf[at:end+len(startxref)]...)
	out = strconv.AppendInt(out, int64(address+len(wish)), 10)
	return append(out, tail[n:]...), nil
}

// replay paints items through fpdf and remembers what is set, so that it is not
// set again.
type replay struct {
	f      *fpdf.Fpdf
	dx, dy float64      // of the live area
	wide   map[int]bool // widths in px of the pictures so far
	stroke int
	fill   int
	text   int
	width  float64
	dash   string
	font   string
}

func (r *replay) forget() {
	r.stroke, r.fill, r.text, r.width, r.dash, r.font = -1, -1, -1, -1, "?", ""
}

// shade is the grey of a colour on white paper: the sheets are black and white.
func shade(c color.NRGBA) int {
	y := (299*int(c.R) + 587*int(c.G) + 114*int(c.B) + 500) / 1000 // Rec. 601 luma
	return 255 - (255-y)*int(c.A)/255
}

func (r *replay) item(it draw.Item, x, y float64) {
	switch it := it.(type) {
	case draw.Path:
		r.path(it, x+r.dx, y+r.dy)
	case draw.Label:
		r.label(it, x+r.dx, y+r.dy)
	}
}

func (r *replay) path(p draw.Path, x, y float64) {
	fill := p.Closed && p.Fill.A > 0
	stroke := p.Stroke.A > 0 && p.Width_mm > 0
	if !fill && !stroke {
		return
	}
	if fill {
		if s := shade(p.Fill); s != r.fill {
			r.f.SetFillColor(s, s, s)
			r.fill = s
		}
	}
	how := "F"
	if stroke {
		if s := shade(p.Stroke); s != r.stroke {
			r.f.SetDrawColor(s, s, s)
			r.stroke = s
		}
		if p.Width_mm != r.width {
			r.f.SetLineWidth(p.Width_mm)
			r.width = p.Width_mm
		}
		if d := fmt.Sprint(p.Dash_mm); d != r.dash {
			r.f.SetDashPattern(p.Dash_mm, 0)
			r.dash = d
		}
		how = "D"
		if fill {
			how = "FD"
		}
	}
	drawn := false
	for _, line := range p.Lines {
		if len(line) < 2 {
			continue
		}
		drawn = true
		for i, q := range line {
			if i == 0 {
				r.f.MoveTo(x+q.X, y+q.Y)
			} else {
				r.f.LineTo(x+q.X, y+q.Y)
			}
		}
		if p.Closed {
			r.f.ClosePath()
		}
	}
	if drawn {
		r.f.DrawPath(how)
	}
}

func (r *replay) label(l draw.Label, x, y float64) {
	if l.Text == "" {
		return
	}
	if s := shade(l.Color); s != r.text {
		r.f.SetTextColor(s, s, s)
		r.text = s
	}
	if font := fmt.Sprint(styles[l.Face], l.Size_mm); font != r.font {
		r.f.SetFont(family, styles[l.Face], l.Size_mm*72/25.4)
		r.font = font
	}
	at := l.Box().Min
	r.f.Text(x+at.X, y+at.Y+l.Size_mm*above, printable(l.Text, l.Face))
}

// picture sets a drawing: everything up to its last solid as one grey picture,
// what lies over it as lines and text.
func (r *replay) picture(p Picture, name string) error {
	last := -1
	for i, it := range p.Drawing.Items {
		switch it.(type) {
		case draw.Solid:
			last = i
		}
	}
	x, y := p.At.X+r.dx, p.At.Y+r.dy
	w, h := p.Drawing.Width_mm, p.Drawing.Height_mm
	r.f.ClipRect(x, y, w, h, false)
	if last >= 0 {
		below := p.Drawing
		below.Items = below.Items[:last+1]
		below.Ground = White
		// fpdf sorts pictures by their width and leaves equal ones in no order: each
		// gets a width of its own, so that the same input gives the same bytes.
		res := pictureRes
		for r.wide[int(math.Ceil(w*res))] {
			res += 1 / w
		}
		r.wide[int(math.Ceil(w*res))] = true
		colour := below.Image(res)
		img := image.NewGray(colour.Bounds())
		imagedraw.Draw(img, img.Rect, colour, colour.Rect.Min, imagedraw.Src)
		var b bytes.Buffer
		if err := png.Encode(&b, img); err != nil {
			return fmt.Errorf("sheet: %s: %w", name, err)
		}
		opt := fpdf.ImageOptions{ImageType: "PNG"}
		r.f.RegisterImageOptionsReader(name, opt, &b)
		r.f.ImageOptions(name, x, y, float64(img.Rect.Dx())/res, float64(img.Rect.Dy())/res, false, opt, 0, "")
	}
	for _, it := range p.Drawing.Items[last+1:] {
		r.item(it, p.At.X, p.At.Y)
	}
	r.f.ClipEnd()
	r.forget() // the clip's end restores what was set before it
	return nil
}
