package store

import (
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestName leaves room, in the 255 bytes that disks allow, for an ending and
// the number of a picture.
const longestName = 200

// SafeName makes the name of a file, without its ending, from what a person
// called something: never a path, nothing hidden, nothing that another system
// refuses. When nothing is left of it, it gives instead.
func SafeName(called, instead string) string {
	name := strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, Plain(called))
	name = strings.Join(strings.Fields(name), " ")
	for len(name) > longestName {
		_, size := utf8.DecodeLastRuneInString(name)
		name = name[:len(name)-size]
	}
	name = strings.Trim(name, " .")
	if strings.Trim(name, "-") == "" {
		return instead
	}
	if reserved(name) {
		return name + "-"
	}
	return name
}

// reserved tells whether Windows takes a name for a device.
func reserved(name string) bool {
	name, _, _ = strings.Cut(strings.ToUpper(name), ".")
	name = strings.TrimRight(name, " ")
	if slices.Contains([]string{"CON", "PRN", "AUX", "NUL"}, name) {
		return true
	}
	port, isCOM := strings.CutPrefix(name, "COM")
	if !isCOM {
		var isLPT bool
		if port, isLPT = strings.CutPrefix(name, "LPT"); !isLPT {
			return false
		}
	}
	return slices.Contains([]string{"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "¹", "²", "³"}, port)
}

// WithEnding adds an ending, such as ".json", to a name that has it not.
func WithEnding(name, ending string) string {
	if strings.EqualFold(filepath.Ext(name), ending) && len(name) > len(ending) {
		return name
	}
	return name + ending
}

// Plain is a text on one line without the characters that steer a terminal or
// turn the direction of writing, so that it cannot pass for something else.
func Plain(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.Is(unicode.White_Space, r):
			return ' '
		case Steers(r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
}

// Steers tells whether a character steers a terminal or turns the direction of
// writing.
func Steers(r rune) bool {
	return unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r)
}
