package assets

import "embed"

//go:embed lessons/*.json
var lessons embed.FS

// course is the order in which the lessons are read: how the folds are sewn
// first, then the strip, the height, the starch.
var course = []string{
	"top-only", "wrong-folds", "ends-up", "strip-short", "no-tucks",
	"rule-of-thumb", "weak-starch", "deep-tucks",
}

// Lessons gives the names of the lessons, in the order of the course.
func Lessons() []string { return append([]string(nil), course...) }

// Lesson gives the text of the lesson of that name, as package page reads it.
func Lesson(name string) ([]byte, bool) {
	for _, known := range course {
		if known == name {
			text, err := lessons.ReadFile("lessons/" + name + ".json")
			return text, err == nil
		}
	}
	return nil, false
}
