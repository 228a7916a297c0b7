package sheet

import (
	"bytes"
	"image"
	_ "image/jpeg" // what logos come as
	_ "image/png"
	"path/filepath"

	"underfall/app/store"
	"underfall/geometry/message"
)

// How large a logo may be, so that a file that is none is not taken into memory: in bytes, and in pixels, which take four
// bytes each. Common practice, no source.
const (
	mostLogoBytes  = 8 << 20
	mostLogoPixels = 20_000_000
)

// ReadLogo reads the picture of a user's logo, a PNG or a JPEG; the error says in words what else the file is.
func ReadLogo(path string) (image.Image, error) {
	file := message.Name("file", store.Plain(filepath.Base(path)))
	data, _, err := store.Read(path, mostLogoBytes)
	if err != nil {
		return nil, message.Wrap(err, "sheet.logo-unread", file)
	}
	size, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || size.Width < 1 || size.Height < 1 {
		return nil, message.Fail("sheet.logo-no-picture", file)
	}
	if size.Width > mostLogoPixels/size.Height {
		return nil, message.Fail("sheet.logo-too-large", file)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, message.Fail("sheet.logo-no-picture", file)
	}
	return img, nil
}
