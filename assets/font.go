package assets

import _ "embed"

// textFont is the face of the window's text, as Fyne brings it too.
//
//go:embed fonts/NotoSans-Regular.ttf
var textFont []byte

// boldFont is the heavier face beside it.
//
//go:embed fonts/NotoSans-Bold.ttf
var boldFont []byte

// TextFont is the font of what is written in drawings, a TrueType file; it is not to be changed.
func TextFont() []byte { return textFont }

// BoldFont is that of headings and numbers on paper, a TrueType file; it is not to be changed.
func BoldFont() []byte { return boldFont }
