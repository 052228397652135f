package picture

import (
	"bytes"
	"encoding/binary"
)

// orientation reads tag 274 of the first directory of TIFF tags; 1, upright, where there
// is none that makes sense.
func orientation(tags []byte) int {
	if len(tags) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if tags[0] == 'M' {
		order = binary.BigEndian
	}
	at := uint64(order.Uint32(tags[4:]))
	if at+2 > uint64(len(tags)) {
		return 1
	}
	n := uint64(order.Uint16(tags[at:]))
	for i := range n {
		entry := at + 2 + 12*i
		if entry+12 > uint64(len(tags)) {
			break
		}
		if order.Uint16(tags[entry:]) == 274 {
			if kept := int(order.Uint16(tags[entry+8:])); kept >= 1 && kept <= 8 {
				return kept
			}
			return 1
		}
	}
	return 1
}

var exif = []byte("Exif\x00\x00")

// jpegTags finds the tags in the segment APP1 of a JPEG.
func jpegTags(file []byte) []byte {
	for at := 2; at+4 <= len(file) && file[at] == 0xff && file[at+1] != 0xda; {
		end := at + 2 + int(binary.BigEndian.Uint16(file[at+2:]))
		if end < at+4 || end > len(file) {
			break
		}
		if rest, ok := bytes.CutPrefix(file[at+4:end], exif); ok && file[at+1] == 0xe1 {
			return rest
		}
		at = end
	}
	return nil
}

// pngTags finds them in the chunk eXIf of a PNG.
func pngTags(file []byte) []byte {
	for at := uint64(8); at+12 <= uint64(len(file)); {
		end := at + 12 + uint64(binary.BigEndian.Uint32(file[at:]))
		if end > uint64(len(file)) {
			break
		}
		if string(file[at+4:at+8]) == "eXIf" {
			return file[at+8 : end-4]
		}
		at = end
	}
	return nil
}

// webpTags finds them in the chunk EXIF of a WebP.
func webpTags(file []byte) []byte {
	for at := uint64(12); at+8 <= uint64(len(file)); {
		size := uint64(binary.LittleEndian.Uint32(file[at+4:]))
		end := at + 8 + size
		if end > uint64(len(file)) {
			break
		}
		if string(file[at:at+4]) == "EXIF" {
			return bytes.TrimPrefix(file[at+8:end], exif)
		}
		at = end + size%2
	}
	return nil
}
