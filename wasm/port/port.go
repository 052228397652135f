// Package port is the line between the page and its other programs, in workers or
// beside it: heads and bodies go through it. It stands apart from package dom, and so
// links neither the drawing nor the page into them. Elsewhere than in a
// browser Pair gives the two ends of a line in memory, for tests.
package port
