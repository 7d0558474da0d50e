"""The site on a USB stick: copied, checked byte for byte, mended, and checked again later."""
