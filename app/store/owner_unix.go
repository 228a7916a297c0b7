//go:build unix

package store

import (
	"io/fs"
	"syscall"
)

// owner gives the user and the group that a file belongs to.
func owner(info fs.FileInfo) (user, group int, known bool) {
	s, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return 0, 0, false
	}
	return int(s.Uid), int(s.Gid), true
}
