package sheet_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"underfall/app/sheet"
	"underfall/geometry/demotest"
	"underfall/geometry/job"
	"underfall/geometry/message"
	"underfall/geometry/price"
)

// coloured is a picture of one colour.
func coloured(wide, high int, c color.Color) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, wide, high))
	draw.Draw(img, img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	return img
}

// writtenAs is a sheet of the first demo in a file, as it is asked for.
func writtenAs(t *testing.T, q sheet.Asked) string {
	t.Helper()
	r := demotest.Shown(t)[0]
	var data bytes.Buffer
	q.Made = made()
	if err := sheet.Write(&data, r, r.Answer(nil), q, book(t)); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "sheet.pdf")
	if err := os.WriteFile(path, data.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// flat is the text of a file without its line ends.
func flat(t *testing.T, path string) string {
	t.Helper()
	return strings.Join(strings.Fields(run(t, "pdftotext", "-layout", path, "-")), " ")
}

// A customer's sheet fits on one or two pages of A4 and Letter, says the step and what was chosen, and has where to sign; a job that
// cannot be built has nothing to be signed.
func TestCustomersSheet(t *testing.T) {
	need(t, "pdftotext")
	for _, r := range demos(t) {
		for _, paper := range []int{0, 2} {
			path := written(t, r, sheet.Customer, sheet.Papers()[paper])
			if n := len(pagesOf(t, path)); n > 2 {
				t.Errorf("%s: %d pages of %s", r.Settled.Name, n, sheet.Papers()[paper].Key)
			}
			text := flat(t, path)
			if !strings.Contains(text, "What you chose") || !strings.Contains(text, "No picture of the finished shower") {
				t.Errorf("%s: what was chosen, or that there is no picture, is not told", r.Settled.Name)
			}
			if signed := strings.Contains(text, "signature"); signed == r.Stops() {
				t.Errorf("%s: to be signed: %v, stops: %v", r.Settled.Name, signed, r.Stops())
			}
		}
	}
}

// The first demo by hand: its step of 119 mm, as the drawings have it, is 0.66 of a stair of 180.
func TestCustomersSheetByHand(t *testing.T) {
	need(t, "pdftotext", "pdfimages")
	prices := price.List{Currency: "GBP", Rows: []price.Row{{Key: "fit", Price: 1200, Priced: true, Amount: 2}}}
	path := writtenAs(t, sheet.Asked{Kind: sheet.Customer, Paper: sheet.Papers()[0], Customer: "Mrs Example", Prices: prices, Costs: true,
		By: "A. Fitter", State: 12, Changed: true,
		Picture: coloured(300, 150, color.RGBA{200, 40, 40, 255}), Logo: coloured(40, 20, color.Transparent)})
	text := flat(t, path)
	for _, says := range []string{"For Mrs Example", "You step up 119 mm, about two thirds of a stair.", "200 mm × 200 mm. Joints: Grey", "£2400.00",
		"A. Fitter · 2026-03-04, 15:16 · state 12, changed since"} {
		if !strings.Contains(text, says) {
			t.Errorf("it does not say “%s”:\n%s", says, text)
		}
	}
	if strings.Contains(text, "No picture") {
		t.Error("it says that there is no picture")
	}
	if images := run(t, "pdfimages", "-list", path); !strings.Contains(images, "300   150") || !strings.Contains(images, " 40    20") {
		t.Errorf("picture and logo are not both in the file:\n%s", images)
	}
}

// What it costs stands on it only where that is asked for, what is not known in plain words, and one that was never saved says so.
func TestCustomersSheetSaysNoMoreThanIsAsked(t *testing.T) {
	need(t, "pdftotext")
	prices := price.List{Currency: "GBP", Rows: []price.Row{{Key: "fit", Price: 1200, Priced: true, Amount: 2}}}
	text := flat(t, writtenAs(t, sheet.Asked{Kind: sheet.Customer, Paper: sheet.Papers()[0], Prices: prices, Changed: true}))
	if strings.Contains(text, "2400.00") || strings.Contains(text, "What it costs") ||
		!strings.Contains(text, "not saved yet") || strings.Contains(text, "state 0") {
		t.Errorf("it says:\n%s", text)
	}
	r := demotest.Shown(t)[1]
	r.Settled.Standings = map[string]job.Standing{"waste.gradient": job.Assumed, "waste.pipe.outsideMM": job.Assumed,
		"room.heightMM": job.NotKnown, "base.adhesiveMM": job.Assumed, "floor.kind": job.Assumed}
	text = flat(t, written(t, r, sheet.Customer, sheet.Papers()[0]))
	const plain = "before work begins: the bare floor underneath, the room itself, some of the parts and where the waste pipe can go."
	if !strings.Contains(text, plain) || strings.Contains(text, "(assumed)") {
		t.Errorf("what is open is not in plain words:\n%s", text)
	}
}

// A quote says what it lacks: all prices, its currency, tax.
func TestAQuoteSaysWhatItLacks(t *testing.T) {
	need(t, "pdftotext")
	work := []price.Row{{Key: "Fitting", Price: 1200, Priced: true, Amount: 2}}
	for _, c := range []struct {
		prices    price.List
		says, not []string
	}{
		{price.List{}, []string{"Not a quote yet"}, []string{"currency is not", "No tax"}},
		{price.List{Rows: []price.Row{{Key: "Fitting", Amount: 2}}}, []string{"Not a quote yet"}, nil},
		{price.List{Rows: work}, []string{"currency is not stated", "No tax is reckoned in", "2400.00"}, []string{"Not a quote"}},
		{price.List{Rows: work, Currency: "EUR", Tax: 0.2}, []string{"2400.00 EUR", "480.00 EUR", "2880.00 EUR"},
			[]string{"No tax", "currency is not"}},
		{price.List{Rows: work, Currency: "gbp"}, []string{"£2400.00", "Labour only: "}, []string{"Underfall informs", "not saved yet", "gbp"}},
	} {
		text := flat(t, writtenAs(t, sheet.Asked{Kind: sheet.Quote, Paper: sheet.Papers()[0], Prices: c.prices}))
		for _, says := range c.says {
			if !strings.Contains(text, says) {
				t.Errorf("%+v: “%s” is not told:\n%s", c.prices, says, text)
			}
		}
		if only, sum := strings.Index(text, "Labour only: "), strings.Index(text, "2400.00"); c.prices.Priced() && (only < 0 || only > sum) {
			t.Errorf("%+v: that it is work alone is not told over the sum:\n%s", c.prices, text)
		}
		for _, says := range c.not {
			if strings.Contains(text, says) {
				t.Errorf("%+v: “%s” is told:\n%s", c.prices, says, text)
			}
		}
	}
}

// What is signed stands over the signature: a sheet that is little more than a page long has a smaller picture, and one page.
func TestTheSignatureStandsUnderWhatIsSigned(t *testing.T) {
	need(t, "pdftotext")
	for _, picture := range []image.Image{nil, coloured(1500, 720, color.RGBA{200, 40, 40, 255})} {
		path := writtenAs(t, sheet.Asked{Kind: sheet.Customer, Paper: sheet.Papers()[0], Picture: picture})
		if pages := pagesOf(t, path); len(pages) != 1 {
			t.Errorf("with a picture: %v: %d pages", picture != nil, len(pages))
		}
	}
}

// A draft of the picture is told as one, and a picture that is yet to come as that.
func TestADraftIsTold(t *testing.T) {
	need(t, "pdftotext")
	picture := coloured(300, 150, color.RGBA{200, 40, 40, 255})
	for says, q := range map[string]sheet.Asked{
		"A quick draft":       {Picture: picture, Draft: true},
		"comes in this place": {Draft: true},
		"Drawn in full, 300 × 150 points, each followed 48 times": {Picture: picture, Samples: 48},
		"Colours on paper differ":                                 {Picture: picture},
		"No picture of the finished":                              {},
	} {
		q.Kind, q.Paper = sheet.Customer, sheet.Papers()[0]
		if text := flat(t, writtenAs(t, q)); !strings.Contains(text, says) {
			t.Errorf("“%s” is not told:\n%s", says, text)
		}
	}
}

// The foot of every page of every sheet says who made it, when, and of which saved state.
func TestFootOfEveryPage(t *testing.T) {
	need(t, "pdftotext")
	r := demotest.Shown(t)[0]
	for _, kind := range sheet.Kinds() {
		text := run(t, "pdftotext", "-layout", written(t, r, kind, sheet.Papers()[0]), "-")
		for i, page := range strings.Split(strings.TrimSuffix(text, "\f"), "\f") {
			if !strings.Contains(page, "A. Fitter · 2026-03-04, 15:16 · state 12") {
				t.Errorf("%s, page %d:\n%s", kind, i+1, page)
			}
		}
	}
}

// A name of 300 letters is told to go on and runs over nothing.
func TestLongNameAtTheFoot(t *testing.T) {
	need(t, "pdftotext")
	for _, by := range []string{strings.Repeat("W", 300), strings.Repeat("bath ", 60)} {
		path := writtenAs(t, sheet.Asked{Kind: sheet.Order, Paper: sheet.Papers()[0], By: by, Customer: by})
		informs := 0.0
		for _, p := range pagesOf(t, path) {
			for _, w := range p.Words {
				if w.Text == "Underfall" {
					informs = w.Left
				}
			}
			for _, w := range p.Words {
				if strings.Contains(w.Text, "…") && w.Right > informs {
					t.Errorf("“%s” runs into what stands beside it", w.Text)
				}
			}
		}
		if text := flat(t, path); !strings.Contains(text, "… · 2026") {
			t.Errorf("it is not cut short:\n%s", text)
		}
	}
}

// A PNG and a JPEG are logos; what is no picture, not there, or far too large is refused in words.
func TestLogos(t *testing.T) {
	folder := t.TempDir()
	file := func(name string, data []byte) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	var asPNG, asJPEG bytes.Buffer
	if err := png.Encode(&asPNG, coloured(30, 10, color.Black)); err != nil {
		t.Fatal(err)
	}
	if err := jpeg.Encode(&asJPEG, coloured(30, 10, color.Black), nil); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{file("a.png", asPNG.Bytes()), file("b.jpg", asJPEG.Bytes())} {
		if img, err := sheet.ReadLogo(path); err != nil || img.Bounds().Dx() != 30 {
			t.Errorf("%s: %v", path, err)
		}
	}
	broken := bytes.Clone(asPNG.Bytes())
	copy(broken[16:], []byte{0, 1, 0, 0, 0, 1, 0, 0}) // 65536 by 65536 pixels, as its head says; its check no longer fits
	huge := bytes.Clone(broken)
	binary.BigEndian.PutUint32(huge[29:], crc32.ChecksumIEEE(huge[12:29])) // with its check, as PNG has it: over the head's kind and data
	for path, says := range map[string]string{
		file("text.png", []byte("no picture")):  "is no picture",
		file("half.png", asPNG.Bytes()[:40]):    "is no picture",
		file("empty.png", nil):                  "is no picture",
		file("broken.png", broken):              "is no picture",
		filepath.Join(folder, "none.png"):       "cannot be read",
		file("long.png", make([]byte, 8<<20+1)): "cannot be read",
		file("huge.png", huge):                  "too many pixels",
	} {
		if _, err := sheet.ReadLogo(path); err == nil || !strings.Contains(book(t).Say(message.OfError(err)), says) {
			t.Errorf("%s: %v, want it to say “%s”", path, err, says)
		}
	}
}

// A ramp is told to who will walk up it: in the last demo it rises by about 1 in 12 from the room's floor at 13 to the
// shower's edge, whose high end lies at 130; and what a tiler is told of the membrane stands on no customer's sheet.
func TestARampIsToldToTheCustomer(t *testing.T) {
	for i, r := range demotest.Shown(t) {
		text := saidOn(drawnPages(t, r, sheet.Customer, sheet.Papers()[0]))
		ramp := regexp.MustCompile(`You walk up a ramp of about 1:12 that rises (\d+) mm: there is no step`).FindStringSubmatch(text)
		if ramped := i == 10; (ramp != nil) != ramped {
			t.Errorf("%s: a ramp is told: %v", r.Settled.Name, ramp)
		} else if ramped && ramp[1] != "117" {
			t.Errorf("it rises %s, want 117", ramp[1])
		}
		if strings.Contains(text, "Bond breakers") {
			t.Errorf("%s: a customer is told of bond breakers", r.Settled.Name)
		}
	}
}

// Where the job is and what its order is found by stand at the head of every page, as far as they are told.
func TestWhereTheJobIsStandsOnEveryPage(t *testing.T) {
	need(t, "pdftotext")
	for _, c := range []struct{ address, number, says string }{
		{"1 Example Road, Exampleton", "2026-118", "1 Example Road, Exampleton · order 2026-118"}, {"", "2026-118", "Order 2026-118"},
		{" 1 Example Road ", "", "1 Example Road"},
	} {
		asked := sheet.Asked{Kind: sheet.Fitter, Paper: sheet.Papers()[0], Address: c.address, Number: c.number}
		for _, p := range pagesOf(t, writtenAs(t, asked)) {
			var top []string
			for _, w := range p.Words {
				if w.Foot < 60 && w.Left > p.Wide/2 {
					top = append(top, w.Text)
				}
			}
			if text := flatPage(p); !strings.Contains(text, "Ground floor slab, waste through the side wall") {
				t.Errorf("beside “%s” the job's name is cut short: “%s”", c.says, text[:60])
			}
			if head := strings.Join(top, " "); !strings.Contains(head, c.says) {
				t.Errorf("“%s” is not at the head: “%s”", c.says, head)
			}
		}
	}
}

// flatPage is the text of a page in one line.
func flatPage(p page) string {
	var all []string
	for _, w := range p.Words {
		all = append(all, w.Text)
	}
	return strings.Join(all, " ")
}
