//go:build !linux

package viewer

import (
	"errors"
	"unsafe"
)

// glContext is not available on this system yet.
type glContext struct{}

func openContext() (*glContext, error) {
	return nil, errors.New("the 3D picture is only available on Linux so far")
}

func (c *glContext) close() {}

func (c *glContext) lost() bool { return true }

func (c *glContext) procAddress(string) unsafe.Pointer { return nil }
