package site_test
