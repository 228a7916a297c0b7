package still

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"path/filepath"
	"strings"

	"underfall/app/store"
	"underfall/geometry/message"
)

// Ending is how the names of pictures end.
const Ending = ".png"

// PictureFile names the pictures of a turn after the first.
func PictureFile(path string, i, n int) string {
	if filepath.Ext(path) == "" {
		path += Ending
	}
	if n == 1 {
		return path
	}
	ext := filepath.Ext(path)
	return fmt.Sprintf("%s-%02d%s", strings.TrimSuffix(path, ext), i+1, ext)
}

// WritePNG writes a picture to a file, all or nothing.
func WritePNG(path string, img image.Image) error {
	var data bytes.Buffer
	err := png.Encode(&data, img)
	if err == nil {
		_, err = store.Write(path, data.Bytes())
	}
	if err != nil {
		return message.Wrap(err, "desk.saving", message.Name("file", store.Plain(filepath.Base(path))))
	}
	return nil
}
