// Package port is the line between the page and its worker: heads and bodies of
// package wire go through it. It stands apart from package dom, and so links
// neither the drawing nor Ebiten into the worker's program. Elsewhere than in a
// browser Pair gives the two ends of a line in memory, for tests.
package port
