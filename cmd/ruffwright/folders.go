package main

import (
	"strconv"
	"strings"

	"ruffwright/geom/scheme"
)

// folders gives names for files and folders that are safe on any disk, never one
// that was given before. Names that differ only in their case count as the same.
type folders map[string]bool

// name makes a name of what somebody or something is called; fallback where
// nothing of it can stand in a name.
func (f folders) name(called, fallback string) string {
	base := scheme.FileName(called, fallback)
	name := base
	for n := 2; f[strings.ToLower(name)]; n++ {
		name = base + "-" + strconv.Itoa(n)
	}
	f[strings.ToLower(name)] = true
	return name
}
