package assets

import (
	"bytes"
	"image/jpeg"
	"testing"
)

// Every demo has its small picture for the start page (./cmd/dev gallery makes them).
func TestExamplesHavePictures(t *testing.T) {
	demos, err := Demos()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range demos {
		if img, err := jpeg.Decode(bytes.NewReader(d.Picture())); err != nil || img.Bounds().Dx() != 374 {
			t.Errorf("%s: %v", d.File, err)
		}
	}
	if (Demo{File: "none.json"}).Picture() != nil {
		t.Error("a demo that is not there has a picture")
	}
}
