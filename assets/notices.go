package assets

import _ "embed"

// Notices are the licences of everything that the page and the command are made of.
// The text follows from go.mod: TestNotices in cmd/site compares it with what is
// linked, and writes it anew with -update.
//
//go:embed notices.txt
var Notices string
